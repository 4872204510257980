import type { Case, NewCase } from '../model';
import { mapped, type Work } from '../turns';

/** A code that is already in the record: the same values, or which differ, old beside new. */
export type KnownCase = {
  code: string;
  row: number;
  caseId: string;
  same: boolean;
  differences: { what: string; before: string; after: string }[];
};

/**
 * Finds cases of a file whose code is already in the record. The same values change nothing; others are shown
 * old beside new, and only taken when that is chosen.
 */
export function* knownCases(cases: readonly NewCase[], existing: readonly Case[]): Work<KnownCase[]> {
  const byCode = new Map(existing.map((one) => [one.code, one]));
  const known = mapped(cases, (one): KnownCase[] => {
    const before = byCode.get(one.code);
    if (!before) return [];
    const differences = differencesOf(before, one);
    return [{ code: one.code, row: one.row, caseId: before.id, same: differences.length === 0, differences }];
  });
  return (yield* known).flat();
}

function differencesOf(before: Case, after: NewCase): KnownCase['differences'] {
  const parts = (one: Case | NewCase): Map<string, string> =>
    new Map([
      ['procedure', one.procedureId],
      ...stepLengths(one),
      ...Object.entries(one.facts).map(([id, value]) => [`about this eye: ${id}`, String(value)] as const),
      ...Object.entries(one.keptSeen).map(([id, seen]) => [`seen: ${id}`, seen ? 'yes' : 'no'] as const),
      ...Object.entries(one.hands.steps).map(([id, hands]) => [`hands: ${id}`, hands] as const),
      ['hands', one.hands.whole],
      [
        'events',
        one.events === null
          ? 'not answered'
          : one.events.map(({ kind, stepId }) => [kind, stepId].filter(Boolean).join(', ')).join('; ') || 'none',
      ],
    ]);
  const [old, new_] = [parts(before), parts(after)];
  return [...new Set([...old.keys(), ...new_.keys()])].flatMap((what) => {
    const [from, to] = [old.get(what) ?? 'not entered', new_.get(what) ?? 'not entered'];
    return from === to ? [] : [{ what, before: from, after: to }];
  });
}

function stepLengths({ stretches }: Pick<Case, 'stretches'>): [string, string][] {
  const lengths = new Map<string, number[]>();
  for (const { stepId, kind, seconds } of stretches) {
    const key = [stepId ?? 'between steps', ...(kind === 'step' ? [] : [kind])].join(', ');
    lengths.set(key, [...(lengths.get(key) ?? []), seconds]);
  }
  return [...lengths].map(([key, seconds]) => [key, seconds.map((one) => `${one} s`).join(' + ')]);
}
