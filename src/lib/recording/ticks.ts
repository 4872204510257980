/** Half a second between two pictures: changes of instrument are seconds apart, and a shorter step would cost more than it finds. */
export const CHANGE_EVERY = 0.5;

/** Pictures over which the middle of a change is taken: about fifteen seconds. */
const RUNNING = 31;
/** Above the middle by this many times the median absolute deviation: below it there is noise alone. */
const LEAST_MAD = 1.5;
/** Two ticks lie at least this far apart, seconds. */
const APART = 1;
/** At most one tick for so many seconds of recording, on average: more would be no help. */
const PER_TICK = 7;

/**
 * Places where the picture changes sharply, in order: somewhere to look, never a mark.
 *
 * @param changes of each half second against the one before: the first is that of the picture at 0.5 s
 * @param every seconds between two pictures
 * @returns seconds of the recording, the middle between the two pictures
 */
export function ticksOf(changes: readonly number[], every = CHANGE_EVERY): number[] {
  const raised = changes.map((change, at) => change - median(around(changes, at)));
  const spread = median(raised.map(Math.abs));
  const candidates = raised
    .map((by, at) => ({ by, at: (at + 0.5) * every }))
    .filter(({ by }) => by > LEAST_MAD * spread && by > 0)
    .sort((a, b) => b.by - a.by || a.at - b.at);
  const most = Math.floor(((changes.length + 1) * every) / PER_TICK);
  const chosen: number[] = [];
  for (const { at } of candidates) {
    if (chosen.length >= most) break;
    if (chosen.every((other) => Math.abs(other - at) >= APART)) chosen.push(at);
  }
  return chosen.sort((a, b) => a - b);
}

const around = (changes: readonly number[], at: number) =>
  changes.slice(Math.max(0, at - (RUNNING >> 1)), at + (RUNNING >> 1) + 1);

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const [low = 0, high = 0] = [sorted[sorted.length % 2 === 1 ? half : half - 1], sorted[half]];
  return (low + high) / 2;
}

/**
 * The tick next to a place, in a direction; `null` where there is none. A tick stands for the half second around it: one
 * that somebody has just gone to, and stepped to the frame of the change from, is not the next.
 */
export function nextTick(ticks: readonly number[], at: number, way: 1 | -1): number | null {
  const near = 0.6 * CHANGE_EVERY;
  return way === 1
    ? (ticks.find((tick) => tick > at + near) ?? null)
    : (ticks.findLast((tick) => tick < at - near) ?? null);
}
