import type { Marks, Row } from './marks';
import { toMillisecond } from './marks';

/** An interval as the case keeps it. Seconds of the recording, whole milliseconds. */
export type MarkedStretch = {
  stepId: string | null;
  start: number;
  end: number;
  seconds: number;
  kind: Row['kind'];
  reason: string | null;
};

/** What is wrong with the marks as they stand; `row` is the row it is about. */
export type MarkProblem = { row: number | null; why: 'runs' | 'too-long' | 'none' | 'twice' };

/** Two hours, as everywhere where times come in. */
const LONGEST = 7200;

/**
 * The stretches of the case, in the order of the recording, and what keeps it from being stored.
 *
 * @param mergeOf step → the steps it is the whole of: timed as one and each by itself, the time would count twice
 */
export function stretchesOf(
  { rows }: Marks,
  mergeOf: Readonly<Record<string, readonly string[]>> = {},
): { stretches: MarkedStretch[]; problems: MarkProblem[] } {
  const problems: MarkProblem[] = [];
  const stretches = rows.flatMap(({ row, kind, stepId, reason, from, to }): MarkedStretch[] => {
    if (to === null) {
      problems.push({ row, why: 'runs' });
      return [];
    }
    const seconds = toMillisecond(to - from);
    if (seconds > LONGEST) problems.push({ row, why: 'too-long' });
    return [{ stepId, start: toMillisecond(from), end: toMillisecond(to), seconds, kind, reason }];
  });
  const timed = new Map(
    rows.flatMap(({ row, kind, stepId }) => (kind === 'step' && stepId ? [[stepId, row] as const] : [])),
  );
  if (timed.size === 0) problems.push({ row: null, why: 'none' });
  for (const [whole, parts] of Object.entries(mergeOf)) {
    const row = timed.get(whole);
    if (row !== undefined && parts.some((id) => timed.has(id))) problems.push({ row, why: 'twice' });
  }
  stretches.sort((a, b) => a.start - b.start || a.end - b.end);
  return { stretches, problems };
}

/** Where a step was returned to: the beginning of every interval of it after the first, in the order of the recording. */
export function returnedToAt({ rows }: Marks, stepId: string): number[] {
  return rows
    .filter((one) => one.kind === 'step' && one.stepId === stepId)
    .map(({ from }) => from)
    .sort((a, b) => a - b)
    .slice(1);
}
