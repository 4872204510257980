import { asCase, type NewCase, type Problem } from '../model';
import { atOnce, type Steps } from '../turns';
import type { ReferenceDraft } from './cases/references';
import { plainWords } from './labels/plain-words';
import { reading, type AuditInput, type AuditReading } from './read-audit';
import { weights } from './weights';

/** A file, or one sheet of a workbook; `name` as it is told to the reader. */
export type PartInput = { name: string; input: Omit<AuditInput, 'existing'> };

export type PartRead = { name: string; reading: AuditReading };

export type Together = Pick<
  AuditReading,
  'cases' | 'lists' | 'references' | 'procedureId' | 'questions' | 'counted' | 'mapping'
> & {
  problems: (Problem & { file: string })[];
  parts: PartRead[];
};

/**
 * Several files and sheets as one record. Each is read with the ones before it as the record so far, by the rules of an
 * import: a code that stands there already is the same case, gets what was not entered, and keeps its values where both
 * say something else, which is named. Cases run by their dates where all have one, else file by file as given.
 */
export const readTogether = (parts: readonly PartInput[]): Together => atOnce(readingTogether(parts));

export function* readingTogether(inputs: readonly PartInput[]): Steps<Together> {
  const parts: PartRead[] = [];
  const problems: Together['problems'] = [];
  const lists: Together['lists'] = [];
  const references: ReferenceDraft[] = [];
  const readers = new Map<string, `R${number}`>();
  const cases = new Map<string, NewCase>();
  for (const [at, { name, input }] of inputs.entries()) {
    const existing = [...cases.values()].map((one, index) => asCase(one, `case-${index + 1}`, one.list));
    const read = yield* reading({ besideOwn: false, ...input, existing });
    parts.push({ name, reading: read });
    problems.push(...read.problems.map((problem) => ({ ...problem, file: name })));
    const ofList = new Map(read.lists.map((list) => [list.key, sameDay(list, lists) ?? `${at + 1} ${list.key}`]));
    for (const list of read.lists)
      if (ofList.get(list.key) === `${at + 1} ${list.key}`) lists.push({ ...list, key: `${at + 1} ${list.key}` });
    const listOf = (one: NewCase) => (one.list === null ? null : (ofList.get(one.list) ?? null));
    const known = new Map(read.known.map((one) => [one.code, one]));
    for (const one of read.cases) {
      yield weights.case;
      const there = known.get(one.code);
      const before = cases.get(one.code);
      if (!there) cases.set(one.code, { ...one, list: listOf(one) });
      else if (there.filled && before) {
        const { sequence, orderKnown } = before;
        cases.set(one.code, { ...there.filled, list: before.list ?? listOf(one), sequence, orderKnown });
      }
      if (there?.conflicts) problems.push({ ...otherValues(one, there.differences), file: name });
    }
    const offset = references.reduce((most, { list }) => Math.max(most, list ?? 0), 0);
    const roles = readersOf(read, readers);
    for (const draft of read.references)
      references.push({
        ...draft,
        reader: roles.get(draft.reader) ?? draft.reader,
        list: draft.list === null ? null : draft.list + offset,
      });
  }
  return {
    cases: inTime([...cases.values()], lists),
    lists,
    references,
    procedureId:
      mostOf([...cases.values()].map(({ procedureId }) => procedureId)) ?? parts[0]?.reading.procedureId ?? null,
    questions: [
      ...new Map(parts.flatMap(({ reading: { questions } }) => questions).map((one) => [one.id, one])).values(),
    ],
    mapping: parts.flatMap(({ reading: { mapping } }) => mapping),
    counted: {
      refused: problems.filter(({ weight }) => weight === 'refused').length,
      queried: problems.filter(({ weight }) => weight === 'queried').length,
    },
    problems,
    parts,
  };
}

/** The list of an earlier file on the same day under the same name. */
function sameDay({ when, label }: Together['lists'][number], lists: Together['lists']): string | undefined {
  if (when.kind !== 'date') return undefined;
  return lists.find((one) => one.when.kind === 'date' && one.when.date === when.date && one.label === label)?.key;
}

function otherValues(
  { row, code }: NewCase,
  differences: readonly { what: string; before: string; after: string }[],
): Problem {
  const [first] = differences;
  const example = first ? ` (${first.what}: ${first.before}, here ${first.after})` : '';
  return {
    row,
    column: null,
    value: code,
    why: `This code stands in an earlier file with other values${example}. Those stay. Make the files agree; or, where it is another case, give it a code of its own.`,
    weight: 'refused',
  };
}

/** R1 of one file and R1 of another are the same reader only where they had the same name; names go no further than this. */
function readersOf({ questions }: AuditReading, readers: Map<string, `R${number}`>): Map<string, `R${number}`> {
  const names = questions.flatMap(({ id, answer }) =>
    id.startsWith('surgeon:') && answer === 'reference' ? [plainWords(id.slice('surgeon:'.length))] : [],
  );
  return new Map(
    names.map((name, index) => {
      const reader = readers.get(name) ?? (`R${readers.size + 1}` as const);
      readers.set(name, reader);
      return [`R${index + 1}`, reader];
    }),
  );
}

function inTime(cases: readonly NewCase[], lists: Together['lists']): NewCase[] {
  const dayOf = new Map(lists.flatMap(({ key, when }) => (when.kind === 'date' ? [[key, when.date] as const] : [])));
  const day = ({ list }: NewCase) => (list === null ? undefined : dayOf.get(list));
  const dated = cases.every((one) => day(one) !== undefined);
  const order = dated ? [...cases].sort((a, b) => compare(day(a) ?? '', day(b) ?? '')) : cases;
  return order.map((one, index) => ({ ...one, sequence: index + 1 }));
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

function mostOf(ids: readonly string[]): string | undefined {
  const counts = new Map<string, number>();
  for (const id of ids) counts.set(id, (counts.get(id) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}
