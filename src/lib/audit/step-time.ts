import type { Case, Stretch } from '../model';
import { joined, lengthWithout, totalLength, type Span } from './spans';
import { auditThresholds } from './thresholds';

/** What step times are read from: a case, or one that has no id yet. */
export type Timed = Pick<Case, 'hands' | 'stretches' | 'returnsNoted'>;

/** Did the surgeon do this step alone? A step done partly by others is absent, not short. */
export function isMine(case_: Timed, stepId: string): boolean {
  return (case_.hands.steps[stepId] ?? case_.hands.whole) === 'mine';
}

/** The clock readings of a stretch, or `null` where only its length is known. */
export function spanOf(stretch: Stretch): Span | null {
  return stretch.start === null || stretch.end === null ? null : { from: stretch.start, to: stretch.end };
}

const lengthOf = (stretch: Stretch): number => {
  const span = spanOf(stretch);
  return span ? span.to - span.from : stretch.seconds;
};

const isSpan = (span: Span | null): span is Span => span !== null;

/** Is there another step's stretch beginning in this gap? Then the surgeon left the step and came back. */
function anotherBetween(case_: Timed, stepId: string, gap: Span): boolean {
  return case_.stretches.some(
    ({ kind, stepId: other, start }) =>
      kind === 'step' && other !== stepId && start !== null && start >= gap.from && start < gap.to,
  );
}

/**
 * The step's own stretches with clock readings, joined where the surgeon did not leave the step:
 * less than a second apart, or apart only by a protected part of this step or by waiting.
 */
function ownGroups(case_: Timed, stepId: string): { groups: Span[]; bridges: Span[] } {
  const own = joined(
    case_.stretches
      .filter((stretch) => stretch.kind === 'step' && stretch.stepId === stepId)
      .map(spanOf)
      .filter(isSpan),
  );
  const pauses = case_.stretches
    .filter((stretch) => stretch.kind !== 'step' && (stretch.stepId === stepId || stretch.stepId === null))
    .map(spanOf)
    .filter(isSpan);
  const groups: Span[] = [];
  const bridges: Span[] = [];
  for (const span of own) {
    const last = groups.at(-1);
    const gap = last && { from: last.to, to: span.from };
    if (!gap || anotherBetween(case_, stepId, gap) || lengthWithout([gap], pauses) >= auditThresholds.joinSeconds)
      groups.push({ ...span });
    else {
      if (gap.to - gap.from < auditThresholds.joinSeconds) bridges.push(gap);
      last.to = span.to;
    }
  }
  return { groups, bridges };
}

/** Stretches of this step whose length alone is known; neighbours in row order are one stretch. */
function lengthsAlone(case_: Timed, stepId: string): { seconds: number; groups: number } {
  let seconds = 0;
  let groups = 0;
  let previous: string | null = null;
  for (const stretch of case_.stretches) {
    if (stretch.kind !== 'step') continue;
    if (stretch.stepId === stepId && spanOf(stretch) === null) {
      seconds += stretch.seconds;
      if (previous !== stepId) groups += 1;
    }
    previous = stretch.stepId;
  }
  return { seconds, groups };
}

/**
 * Step time in seconds: own stretches, less protected parts and waiting inside them.
 * Waiting noted with a length alone counts as inside its step. Waiting of another step that this one
 * overlaps is *other work meanwhile* and is not taken out.
 *
 * @returns `null` where the step is absent: not performed, by other hands, or nothing left of it.
 */
export function stepSecondsOf(case_: Timed, stepId: string): number | null {
  if (!isMine(case_, stepId)) return null;
  const own: Stretch[] = [];
  const outside: Stretch[] = [];
  for (const stretch of case_.stretches)
    if (stretch.stepId === stepId) (stretch.kind === 'step' ? own : outside).push(stretch);
  const [only] = own;
  if (!only) return null;
  // One stretch with nothing to take out: most of every record, and read a hundred times a page.
  if (own.length === 1 && outside.length === 0) return lengthOf(only) > 0 ? lengthOf(only) : null;
  const { bridges } = ownGroups(case_, stepId);
  const timed = lengthWithout([...own.map(spanOf).filter(isSpan), ...bridges], outside.map(spanOf).filter(isSpan));
  const alone = outside.filter((stretch) => spanOf(stretch) === null).reduce((sum, { seconds }) => sum + seconds, 0);
  const seconds = timed + lengthsAlone(case_, stepId).seconds - alone;
  return seconds > 0 ? seconds : null;
}

/**
 * How often the surgeon returned to this step in this case: the count given by the source, else further
 * stretches after another step or at least a second.
 *
 * @returns `null` where the step is absent.
 */
export function timesReturnedTo(case_: Timed, stepId: string): number | null {
  if (stepSecondsOf(case_, stepId) === null) return null;
  const noted = case_.returnsNoted[stepId];
  if (noted !== undefined) return noted;
  return Math.max(0, ownGroups(case_, stepId).groups.length + lengthsAlone(case_, stepId).groups - 1);
}

/** Waiting tied to this step, seconds; inside the step or before it. 0 where none was noted. */
export function waitingOf(case_: Timed, stepId: string): number {
  return waitingSeconds(case_.stretches.filter((stretch) => stretch.stepId === stepId));
}

/** All waiting of the case, seconds, between steps too. */
export function waitingOfCase(case_: Timed): number {
  return waitingSeconds(case_.stretches);
}

function waitingSeconds(stretches: readonly Stretch[]): number {
  const waiting = stretches.filter((stretch) => stretch.kind === 'waiting');
  const alone = waiting.filter((stretch) => spanOf(stretch) === null).reduce((sum, { seconds }) => sum + seconds, 0);
  return alone + totalLength(waiting.map(spanOf).filter(isSpan));
}
