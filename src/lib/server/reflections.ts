import { z } from 'zod';
import { type Reflection, checkpointAnswers } from '../model';
import { keptText } from '../rooms/forms/kept-text';
import { personIn } from '../persons';
import { renderOwnMarkdown } from './content';
import type { Store } from './storage/port';

export type ReflectionInput = Pick<Reflection, 'answers' | 'protectedSeen' | 'saw' | 'willTry' | 'tags'>;
export type Trouble = { field: string; message: string };

const MOST = 20_000;
const MOST_TAGS = 12;

const fieldsSchema = z.object({
  saw: z.string(),
  willTry: z.string(),
  tags: z.string(),
  answers: z.record(z.string(), z.string()),
  cases: z.array(z.string()),
});
/** The form as it was typed, to be shown again or kept as a draft. */
export type ReflectionFields = z.infer<typeof fieldsSchema>;

export const reflectionFields = (form: FormData): ReflectionFields => ({
  saw: String(form.get('saw') ?? ''),
  willTry: String(form.get('willTry') ?? ''),
  tags: String(form.get('tags') ?? ''),
  answers: Object.fromEntries(
    [...form].flatMap(([name, value]) =>
      name.includes(':') && typeof value === 'string' && value ? [[name, value]] : [],
    ),
  ),
  cases: form.getAll('case').map(String),
});

/** A draft kept under this key; `null` for none, or for one that is not a form of ours. */
export const reflectionDraft = async (store: Store, key: string): Promise<ReflectionFields | null> =>
  keptText(fieldsSchema, await store.draft(key));

/** What Preview and Keep as draft do is the same for a new note and for a change of one. */
export const reflectionPreview = (form: FormData) => {
  const values = reflectionFields(form);
  return {
    errors: [],
    values,
    looksLike: [],
    preview: { saw: renderOwnMarkdown(values.saw), willTry: renderOwnMarkdown(values.willTry) },
  };
};

export async function keepReflectionDraft(store: Store, key: string, form: FormData) {
  const values = reflectionFields(form);
  await store.saveDraft(key, JSON.stringify(values));
  return { errors: [], values, looksLike: [], drafted: true };
}

/** The form read to be stored, or why it is not: an error, or text that looks like a person and was not said to be nobody. */
export function reflectionToStore(
  form: FormData,
  none: readonly string[] = [],
):
  | { input: ReflectionInput; refused: null }
  | { input: null; refused: { errors: Trouble[]; values: ReflectionFields; looksLike: string[] } } {
  const { input, errors, looksLike } = readReflection(form, none);
  const values = reflectionFields(form);
  if (errors.length > 0) return { input: null, refused: { errors, values, looksLike: [] } };
  if (looksLike.length > 0 && form.get('nobody') !== 'yes')
    return { input: null, refused: { errors: [], values, looksLike } };
  return { input, refused: null };
}

/** What the store refused, with everything that was typed. */
export const notStored = (form: FormData, refused: Trouble) => ({
  errors: [refused],
  values: reflectionFields(form),
  looksLike: [] as string[],
});

/**
 * Reads the reflection form: `answer:<case>:<checkpoint>`, `kept:<case>:<part>` (yes | no), `saw`, `willTry`, `tags`;
 * `all:answer:<checkpoint>` and `all:kept:<part>` stand for every case of the form that has no answer of its own.
 * An empty answer is none. Text that looks like a person is stored only once the writer says it is none.
 */
export function readReflection(
  form: FormData,
  none: readonly string[] = [],
): { input: ReflectionInput; errors: Trouble[]; looksLike: string[] } {
  const input: ReflectionInput = {
    answers: [],
    protectedSeen: [],
    saw: text(form, 'saw'),
    willTry: text(form, 'willTry'),
    tags: tagsOf(text(form, 'tags')),
  };
  for (const [name, value] of answersWithAll(form)) {
    const [what, caseId, id] = name.split(':');
    if (!caseId || !id || typeof value !== 'string' || value === '') continue;
    const answer = checkpointAnswers.find((each) => each === value);
    if (what === 'answer' && answer) input.answers.push({ caseId, checkpointId: id, answer });
    if (what === 'kept' && (value === 'yes' || value === 'no'))
      input.protectedSeen.push({ caseId, protectedPartId: id, seen: value === 'yes' });
  }
  const errors: Trouble[] = [];
  if (input.saw === '' && input.willTry === '' && input.answers.length === 0 && input.protectedSeen.length === 0)
    errors.push({ field: 'saw', message: 'There is nothing to store yet: answer a checkpoint or write a line.' });
  for (const field of ['saw', 'willTry'] as const)
    if (input[field].length > MOST) errors.push({ field, message: `Keep this text under ${MOST} characters.` });
  if (input.tags.length > MOST_TAGS)
    errors.push({ field: 'tags', message: `At most ${MOST_TAGS} tags; these are ${input.tags.length}.` });
  const looksLike = personIn(`${input.saw}\n${input.willTry}\n${input.tags.join(' ')}`, 'note', none).map(
    (found) => `"${found.bit}" looks like ${found.looksLike}`,
  );
  return { input, errors, looksLike };
}

/** The fields of the form, and for each "all the others" an answer of every case that has none. */
function answersWithAll(form: FormData): [string, FormDataEntryValue][] {
  const own = [...form].filter(([name]) => !name.startsWith('all:'));
  const answered = new Set(own.flatMap(([name, value]) => (value === '' ? [] : [name])));
  const others = [...form].flatMap(([name, value]) => {
    const [all, what, id] = name.split(':');
    if (all !== 'all' || !what || !id) return [];
    return form
      .getAll('case')
      .map((caseId): [string, FormDataEntryValue] => [`${what}:${String(caseId)}:${id}`, value]);
  });
  return [...own, ...others.filter(([name]) => !answered.has(name))];
}

const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();
const tagsOf = (value: string) => [
  ...new Set(
    value
      .split(/[,;]/)
      .map((tag) => tag.trim())
      .filter(Boolean),
  ),
];
