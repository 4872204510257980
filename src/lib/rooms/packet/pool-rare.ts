import type { EyeFact, FactValue } from '../../model';

/** Below so many a kind of eye says too much about whose eye it was. */
export const LEAST_ALIKE = 5;

/** One fact as it goes out: how many have each value, how many none, and which values were pooled with those that have none. */
export type FactGiven = {
  factId: string;
  given: readonly { value: FactValue; cases: number }[];
  notEntered: number;
  pooled: readonly { value: FactValue; cases: number }[];
};

/**
 * The values of one fact with the rare ones pooled: a value that fewer than five cases have is given as not entered, and
 * with it the next rarest, until at least five are. Numbers are given whole.
 *
 * @param values in the order of the cases; `undefined` where none was entered
 */
export function poolRare(
  { id, kind }: Pick<EyeFact, 'id' | 'kind'>,
  values: readonly (FactValue | undefined)[],
): { values: (FactValue | undefined)[]; about: FactGiven } {
  const whole = values.map((value) => (kind === 'number' && typeof value === 'number' ? Math.round(value) : value));
  const counts = new Map<FactValue, number>();
  for (const value of whole) if (value !== undefined) counts.set(value, (counts.get(value) ?? 0) + 1);
  // Of equal ones that which is named first in the order of values, so that the same record gives the same packet.
  const rarest = [...counts].sort(([a, n], [b, m]) => n - m || String(a).localeCompare(String(b), 'en'));
  let hidden = whole.filter((value) => value === undefined).length;
  const pooled: { value: FactValue; cases: number }[] = [];
  for (const [value, cases] of rarest) {
    // Those in which nothing was entered are no rare kind of eye by themselves; a rare one must not stand out among them.
    if (cases >= LEAST_ALIKE && (pooled.length === 0 || hidden >= LEAST_ALIKE)) break;
    pooled.push({ value, cases });
    hidden += cases;
  }
  const out = new Set(pooled.map(({ value }) => value));
  const given = [...counts].filter(([value]) => !out.has(value)).map(([value, cases]) => ({ value, cases }));
  return {
    values: whole.map((value) => (value === undefined || out.has(value) ? undefined : value)),
    about: { factId: id, given, notEntered: hidden, pooled },
  };
}
