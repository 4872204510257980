import type { Reflection } from '../model';
import { checkpointAnswers } from '../model';
import { personIn } from '../words';

export type ReflectionInput = Pick<Reflection, 'answers' | 'keptSeen' | 'saw' | 'willTry' | 'tags'>;
export type Trouble = { field: string; message: string };

const MOST = 20_000;

/**
 * Reads the reflection form: `answer:<case>:<checkpoint>`, `kept:<case>:<part>` (yes | no), `saw`, `willTry`, `tags`.
 * An empty select is not an answer. Text that looks like a person is stored only once the writer says it is none.
 */
export function readReflection(form: FormData): { input: ReflectionInput; errors: Trouble[]; looksLike: string[] } {
  const input: ReflectionInput = {
    answers: [],
    keptSeen: [],
    saw: text(form, 'saw'),
    willTry: text(form, 'willTry'),
    tags: tagsOf(text(form, 'tags')),
  };
  for (const [name, value] of form) {
    const [what, caseId, id] = name.split(':');
    if (!caseId || !id || typeof value !== 'string' || value === '') continue;
    const answer = checkpointAnswers.find((each) => each === value);
    if (what === 'answer' && answer) input.answers.push({ caseId, checkpointId: id, answer });
    if (what === 'kept' && (value === 'yes' || value === 'no'))
      input.keptSeen.push({ caseId, keptPartId: id, seen: value === 'yes' });
  }
  const errors: Trouble[] = [];
  if (input.saw === '' && input.willTry === '' && input.answers.length === 0 && input.keptSeen.length === 0)
    errors.push({ field: 'saw', message: 'There is nothing to store yet: answer a checkpoint or write a line.' });
  for (const field of ['saw', 'willTry'] as const)
    if (input[field].length > MOST) errors.push({ field, message: `Keep this text under ${MOST} letters.` });
  const looksLike = personIn(`${input.saw}\n${input.willTry}\n${input.tags.join(' ')}`).map(
    (found) => `"${found.bit}" looks like ${found.looksLike}`,
  );
  return { input, errors, looksLike };
}

const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();
const tagsOf = (value: string) =>
  [
    ...new Set(
      value
        .split(/[,;]/)
        .map((tag) => tag.trim())
        .filter(Boolean),
    ),
  ].slice(0, 12);
