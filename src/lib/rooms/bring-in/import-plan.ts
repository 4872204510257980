import { stepSecondsOf } from '../../audit';
import type { AuditReading, KnownCase, ReferenceDraft } from '../../intake';
import { same, type Case, type ListRecord, type NewCase, type ReferenceCase, type ReferenceSet } from '../../model';
import { listOfSheet } from '../lists/list-sheet';

type Choices = Readonly<Record<string, string>>;

/**
 * Must it be said whose times these are? In a record that has own cases nobody's times become own by default, unless the
 * file names its surgeons, or at least half of its codes are in the record with values that do not differ. A sheet without times belongs to own cases.
 */
export function whoseIsOpen({ besideOwn, layout, references, cases, known, questions }: AuditReading): boolean {
  if (!besideOwn || layout === 'sheet' || cases.length === 0 || references.length > 0) return false;
  if (questions.some(({ id }) => id.startsWith('surgeon:'))) return false;
  return known.length === 0 || known.filter(({ conflicts }) => !conflicts).length * 2 < known.length;
}

/** What a confirmed import would bring; the same for the page that shows it and the action that does it. */
export type ImportPlan = {
  whose: 'me' | 'reference';
  cases: NewCase[];
  /** `there`: the list of the record that it is. */
  lists: (AuditReading['lists'][number] & { there: string | null })[];
  replace: { caseId: string; case: NewCase }[];
  referenceCases: ReferenceCase[];
  reference: { cases: number; readers: number; label: string } | null;
  /** The other surgeons' cases are a reference set of the record already. */
  referenceKept: boolean;
  nothing: boolean;
};

/** Name of the field that chooses old or new for one case; `known` alone is the answer for all. */
export const knownField = (caseId: string) => `known:${caseId}`;

/** Where old and new differ the old stays unless the new is chosen, for this case or for all. */
export const keepsNew = (choices: Choices, { caseId, closed }: Pick<KnownCase, 'caseId' | 'closed'>): boolean =>
  !closed && (choices[knownField(caseId)] ?? choices['known'] ?? 'old') === 'new';

/**
 * Which cases are added, which replace what is there, which go into a reference set. A case that is in the record with
 * the same values is left alone; in one with others what nobody had entered is filled in, and the rest only where that is
 * chosen. Lists come with the cases that are on them.
 *
 * @param record the reference sets and lists there are: the same cases are not kept twice, and a list sheet comes back to
 *   its own list
 */
export function importPlan(
  reading: AuditReading,
  choices: Choices,
  { references = [], lists = [] }: { references?: readonly ReferenceSet[]; lists?: readonly ListRecord[] } = {},
): ImportPlan {
  const whose = choices['whose'] === 'reference' && reading.references.length === 0 ? 'reference' : 'me';
  const drafts: ReferenceDraft[] = whose === 'reference' ? asReader(reading) : [...reading.references];
  const read = drafts.flatMap(referenceCase);
  const kept = read.length > 0 && references.some((set) => same(set.cases, read));
  const referenceCases = kept ? [] : read;
  const known = new Map(reading.known.map((one) => [one.code, one]));
  const mine = whose === 'reference' ? [] : reading.cases;
  const cases = mine.filter(({ code }) => !known.has(code));
  const replace = mine.flatMap((one) => {
    const there = known.get(one.code);
    if (!there || there.same || there.closed) return [];
    const taken = keepsNew(choices, there) ? one : there.filled;
    return taken ? [{ caseId: there.caseId, case: taken }] : [];
  });
  const on = new Set([...cases, ...replace.map((one) => one.case)].map(({ list }) => list));
  const readers = new Set(referenceCases.map(({ reader }) => reader)).size;
  return {
    whose,
    cases,
    replace,
    lists: reading.lists
      .filter(({ key }) => on.has(key))
      .map((list) => ({ ...list, there: reading.layout === 'sheet' ? listOfSheet(list, lists) : null })),
    referenceCases,
    reference:
      referenceCases.length > 0
        ? { cases: referenceCases.length, readers, label: choices['referenceLabel'] ?? 'Reference set' }
        : null,
    referenceKept: kept,
    nothing: cases.length + replace.length + referenceCases.length === 0,
  };
}

/** A whole file of one other surgeon: a reader without a name. */
function asReader({ cases, lists }: AuditReading): ReferenceDraft[] {
  const numbers = new Map(lists.map(({ key }, index) => [key, index + 1]));
  return cases.map((one) => ({
    reader: 'R1',
    list: one.list === null ? null : (numbers.get(one.list) ?? null),
    case: one,
  }));
}

/** Of another surgeon's case only step times and facts are kept; a step partly by others' hands is left out there too. */
function referenceCase({ reader, list, case: one }: ReferenceDraft): ReferenceCase[] {
  const { row: _row, list: _list, ...rest } = one;
  const whole: Case = {
    ...rest,
    id: 'case-0',
    listId: null,
    source: { kind: 'typed' },
    version: 1,
    history: [],
    leftOut: null,
    keptAsItIs: null,
    factChanges: [],
    invented: false,
  };
  const steps = new Set(
    one.stretches.flatMap(({ stepId, kind }) => (kind === 'step' && stepId !== null ? [stepId] : [])),
  );
  const stepSeconds = Object.fromEntries(
    [...steps].flatMap((id) => {
      const seconds = stepSecondsOf(whole, id);
      return seconds === null ? [] : [[id, seconds] as const];
    }),
  );
  return Object.keys(stepSeconds).length === 0 ? [] : [{ reader, list, facts: one.facts, stepSeconds }];
}

/**
 * The plan as the store takes it.
 * @param now the day the surgeon said that the others agreed
 * @param seen whether the times of a case in the record have been seen: its facts are then marked as changed late
 */
export function importBatch(
  plan: ImportPlan,
  reading: Pick<AuditReading, 'procedureId'>,
  now: string,
  seen: (caseId: string) => boolean,
): {
  cases: NewCase[];
  lists: ImportPlan['lists'];
  replace: { caseId: string; case: NewCase; timesSeen: boolean }[];
  references: Omit<ReferenceSet, 'id'>[];
} {
  return {
    cases: plan.cases,
    lists: plan.lists,
    replace: plan.replace.map((each) => ({ ...each, timesSeen: seen(each.caseId) })),
    references:
      plan.reference && reading.procedureId
        ? [
            {
              label: plan.reference.label,
              procedureId: reading.procedureId,
              agreedAt: now,
              cases: plan.referenceCases,
              invented: false,
            },
          ]
        : [],
  };
}
