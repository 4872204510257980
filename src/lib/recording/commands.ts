import type { Edit } from './edit';
import { edited, marksOf, running, toMillisecond, type Log } from './marks';

/** What marking needs to know of a step. */
export type StepToMark = { id: string; parts: readonly string[] };

const open = (kind: 'step' | 'waiting', stepId: string | null, at: number): Edit => ({
  do: 'open',
  kind,
  stepId,
  reason: null,
  at,
});

/** The step begins here; one that still runs ends here first. */
export function startStep(log: Log, stepId: string, seconds: number): Log {
  const at = toMillisecond(seconds);
  const before = endAll(log, at);
  return edited(before, open('step', stepId, at));
}

/** The running step ends here, and waiting in it with it. Nothing, where none runs or it began later. */
export const endStep = (log: Log, seconds: number): Log => endAll(log, toMillisecond(seconds));

function endAll(log: Log, at: number): Log {
  let now = log;
  const { rows } = marksOf(log);
  for (const { row, from, to, kind } of rows) {
    if (to !== null || kind === 'protected') continue;
    if (at > from) now = edited(now, { do: 'close', row, at });
  }
  return now;
}

/** Waiting begins here, in the running step or between steps; where it runs already, it ends here. */
export function toggleWaiting(log: Log, seconds: number): Log {
  const at = toMillisecond(seconds);
  const marks = marksOf(log);
  const waits = running(marks, 'waiting');
  if (waits) return at > waits.from ? edited(log, { do: 'close', row: waits.row, at }) : log;
  return edited(log, open('waiting', running(marks, 'step')?.stepId ?? null, at));
}

/** The protected parts of a step: seen, then not seen, then not looked for again. */
export function toggleSeen(log: Log, partId: string): Log {
  const now = marksOf(log).seen[partId];
  return edited(log, { do: 'seen', partId, seen: now === undefined ? true : now ? false : null });
}

/**
 * The step that is being marked: the one that runs, else the first after the last one marked that has no interval yet.
 * @returns `null` after the last step
 */
export function stepInHand(log: Log, steps: readonly StepToMark[]): string | null {
  const marks = marksOf(log);
  const runs = running(marks, 'step');
  if (runs) return runs.stepId;
  const own = marks.rows.filter(({ kind }) => kind === 'step');
  const marked = new Set(own.map(({ stepId }) => stepId));
  const furthest = Math.max(-1, ...own.map(({ stepId }) => steps.findIndex(({ id }) => id === stepId)));
  return steps.slice(furthest + 1).find(({ id }) => !marked.has(id))?.id ?? null;
}
