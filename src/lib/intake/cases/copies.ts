import type { Case, NewCase } from '../../model';

type Timed = Pick<Case, 'procedureId' | 'stretches'>;

/** Of so few times two operations may well have the same. */
const TIMES_TO_TELL = 4;

/** The times of a case as one text; `null` where there are too few to tell it by. */
function timesOf({ procedureId, stretches }: Timed): string | null {
  if (stretches.length < TIMES_TO_TELL) return null;
  return JSON.stringify([procedureId, stretches.map(({ stepId, kind, seconds }) => [stepId, kind, seconds])]);
}

/** Finds the case of the record that has exactly these times, each of them once. */
export function copiesIn(existing: readonly Case[]): (one: NewCase) => Case | null {
  const byTimes = new Map<string, Case[]>();
  for (const one of existing) {
    const times = timesOf(one);
    if (times !== null) byTimes.set(times, [...(byTimes.get(times) ?? []), one]);
  }
  // Of a first file nothing is known: its times are then not put together for nothing.
  if (byTimes.size === 0) return () => null;
  return (one) => {
    const times = timesOf(one);
    return (times !== null && byTimes.get(times)?.shift()) || null;
  };
}
