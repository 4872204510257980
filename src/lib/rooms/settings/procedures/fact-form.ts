import type { EyeFact, Procedure } from '../../../model';
import { textOf, textsOf, type FieldError, type Fields } from '../../forms/fields';
import { namesFrom, namesText } from './lines';
import type { Renamed } from './problems';
import { capital } from '../../../format';
import { enteredWords } from './procedures-view';
import { slugFrom } from './slug-from';
import type { ProcedureUse } from './use';

const BLANK_ANSWERS = 3;
const MORE_ANSWERS = 3;

/** The form of one fact of the eye, ready to print. */
export type FactForm = {
  id: string | null;
  values: Record<string, string[]>;
  answers: readonly { id: string; label: string; recorded: number }[];
  blanks: number;
  /** In how many cases it is entered, in words: its kind then stays as it is. `null` for none. */
  entered: string | null;
};

const emptyFact: EyeFact = { id: '', label: '', kind: 'yes-no', synonyms: [], asked: 'row' };

/** @param sent what was typed so far, when the form comes back with an error or with more lines */
export function factForm(procedure: Procedure, factId: string | null, use: ProcedureUse, sent: Fields = {}): FactForm {
  const fact = procedure.facts.find(({ id }) => id === factId) ?? emptyFact;
  const levels = fact.kind === 'choice' ? (fact.levels ?? []) : [];
  return {
    id: factId,
    values: {
      label: [fact.label],
      kind: [fact.kind],
      asked: [fact.asked],
      key: [fact.key ?? ''],
      unit: [fact.unit ?? ''],
      synonyms: [namesText(fact.synonyms)],
      ...Object.fromEntries(
        levels.flatMap(({ id, label, key, synonyms = [] }) => [
          [`answer-${id}`, [label]],
          [`key-${id}`, [key]],
          [`names-${id}`, [namesText(synonyms)]],
        ]),
      ),
    },
    answers: levels.map(({ id, label }) => ({
      id,
      label,
      recorded: use.answers.get(`${fact.id}/${id}`) ?? 0,
    })),
    blanks: Math.max(BLANK_ANSWERS, (sent.newAnswer?.length ?? 0) + ('more' in sent ? MORE_ANSWERS : 0)),
    entered: use.facts.has(fact.id) ? capital(enteredWords(fact.id, use)) : null,
  };
}

const isKind = (text: string): text is EyeFact['kind'] => ['yes-no', 'choice', 'number'].includes(text);
const isAsked = (text: string): text is EyeFact['asked'] => ['row', 'more', 'file'].includes(text);

/** The procedure with the fact as typed; a new one comes last. Answers that stand in cases stay. */
export function factFromForm(
  fields: Fields,
  procedure: Procedure,
  factId: string | null,
  use: ProcedureUse,
): { procedure: Procedure; factId: string; errors: FieldError[]; renamed: Renamed } {
  const before = procedure.facts.find(({ id }) => id === factId) ?? emptyFact;
  const label = textOf(fields, 'label');
  const taken = [...procedure.facts.map(({ id }) => id), ...use.facts.keys()];
  const id = factId ?? slugFrom(label, taken, 'fact');
  const kindText = textOf(fields, 'kind');
  const askedText = textOf(fields, 'asked');
  const kind = isKind(kindText) ? kindText : before.kind;
  const entered = use.facts.get(id) ?? 0;
  const errors: FieldError[] =
    entered > 0 && kind !== before.kind
      ? [
          {
            field: 'kind',
            message: `Kind: ${entered} ${entered === 1 ? 'case has' : 'cases have'} an answer of the kind it has now. Keep it, and add a new fact for the other kind.`,
          },
        ]
      : [];
  const asked = isAsked(askedText) ? askedText : before.asked;
  const key = textOf(fields, 'key').toUpperCase();
  const unit = textOf(fields, 'unit');
  // A yes or no may have words of its own ("block took"); the form leaves them as they are.
  const answers = kind === 'choice' ? answersFrom(fields, before, use) : { levels: undefined, renamed: {} };
  const levels = answers.levels ?? (kind === before.kind ? before.levels : undefined);
  const fact: EyeFact = {
    id,
    label,
    kind,
    ...(levels ? { levels } : {}),
    ...(asked === 'more' && key !== '' ? { key } : {}),
    ...(kind === 'number' && unit !== '' ? { unit } : {}),
    synonyms: namesFrom(textOf(fields, 'synonyms')),
    asked,
  };
  const facts = factId ? procedure.facts.map((other) => (other.id === id ? fact : other)) : [...procedure.facts, fact];
  return { procedure: { ...procedure, facts }, factId: id, errors, renamed: answers.renamed };
}

type Answer = NonNullable<EyeFact['levels']>[number];

const answer = (id: string, label: string, key: string, names: readonly string[]): Answer => ({
  id,
  label,
  key: key.toUpperCase(),
  ...(names.length > 0 ? { synonyms: [...names] } : {}),
});

function answersFrom(fields: Fields, before: EyeFact, use: ProcedureUse): { levels: Answer[]; renamed: Renamed } {
  const gone = new Set(textsOf(fields, 'answerGone'));
  const known = before.kind === 'choice' ? (before.levels ?? []) : [];
  const kept = known
    .filter(({ id }) => !gone.has(id) || use.answers.has(`${before.id}/${id}`))
    .map(({ id }) =>
      answer(id, textOf(fields, `answer-${id}`), textOf(fields, `key-${id}`), namesFrom(textOf(fields, `names-${id}`))),
    );
  const taken = new Set(known.map(({ id }) => id));
  const renamed: Record<string, string> = {};
  const added = (fields.newAnswer ?? []).flatMap((typed, index) => {
    const label = typed.trim();
    if (label === '') return [];
    const id = slugFrom(label, taken, 'answer');
    taken.add(id);
    renamed[`answer-${id}`] = `newAnswer-${index}`;
    renamed[`key-${id}`] = `newKey-${index}`;
    const keyTyped = fields.newKey?.[index]?.trim() ?? '';
    return [answer(id, label, keyTyped, namesFrom(fields.newNames?.[index] ?? ''))];
  });
  return { levels: [...kept, ...added], renamed: { newAnswer: 'newAnswer-0', ...renamed } };
}

/** Without a fact no case has an answer to; one that stands in cases is kept, and only asked of files from now on. */
export function withoutFact(procedure: Procedure, factId: string, use: ProcedureUse): Procedure {
  const facts = use.facts.has(factId)
    ? procedure.facts.map((fact) => (fact.id === factId ? { ...fact, asked: 'file' as const, key: undefined } : fact))
    : procedure.facts.filter(({ id }) => id !== factId);
  return { ...procedure, facts };
}
