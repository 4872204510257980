/**
 * When a boundary is expected, counted from the one before it: from the earliest to the latest usual place. Seconds of
 * the recording. Never shown, and never a mark by itself: it only sets the speed of playing.
 */
export type Expected = { after: number; until: number };

/** Playing at normal speed begins this much before the earliest usual place, seconds: time enough to look up. */
const BEFORE = 2;

/**
 * The speed at a place of the recording, with *slow near*.
 *
 * @param since seconds since the last mark; `null` before the first one
 * @param expected of the boundary that comes next; `null` where nothing is known of it
 * @param fast the speed away from boundaries
 */
export function speedNear(since: number | null, expected: Expected | null, fast: number): number {
  if (since === null || expected === null) return 1;
  const near = since >= expected.after - BEFORE && since <= expected.until + BEFORE;
  return near ? Math.min(1, fast) : fast;
}

/**
 * How long playing a whole recording takes, seconds: at one speed, or with *slow near* (each expected boundary played at
 * normal speed from its earliest to its latest usual place).
 *
 * @param expected the boundaries that slow it; none for playing at one speed
 */
export function playingSeconds(duration: number, speed: number, expected: readonly Expected[] = []): number {
  const near = expected.reduce((sum, { after, until }) => sum + until - Math.max(0, after - BEFORE) + BEFORE, 0);
  const slow = speed > 1 ? Math.min(duration, near) : 0;
  return slow + (duration - slow) / speed;
}
