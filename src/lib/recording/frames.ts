/**
 * Frames, without a table of them: the recording itself tells by `mediaTime` which frame it shows. Seconds throughout.
 * Seeking to the exact beginning of a frame shows the one before it in up to a third of tries; its middle never did.
 */

/** What a frame step needs: go somewhere, and be told which frame is shown there. */
export type Seek = (to: number) => Promise<number>;

/** No camera of an operating microscope makes more than 120 frames a second: two closer than this are one. */
const SHORTEST = 1 / 125;
/** Looks for the next frame where frames come at uneven times: each halves what is left. */
const MOST_LOOKS = 12;

/** The frame before this one; the same one at the beginning. `shown`: where the frame that is shown begins. */
export const frameBefore = (seek: Seek, shown: number): Promise<number> => seek(Math.max(0, shown - SHORTEST / 2));

/**
 * The frame after this one. With even frames one look is enough; where they come unevenly (a variable rate), the place
 * between is halved until no frame can lie between.
 *
 * @param shown where the frame that is shown begins
 * @returns where the frame now shown begins; `shown` at the end
 */
export async function frameAfter(seek: Seek, shown: number, gap: FrameGap, duration: number): Promise<number> {
  let passed = shown; // the shown frame lasts at least to here
  let next = shown;
  for (let reach = 1.5 * gap.seconds; next <= shown; reach *= 2) {
    const to = Math.min(shown + reach, duration - 0.001);
    if (to <= passed) return shown;
    next = await seek(to);
    if (next <= shown) passed = to;
  }
  let now = next;
  const near = gap.even ? 1.2 * gap.seconds : 0;
  for (let look = 0; look < MOST_LOOKS && next - shown > near && next - passed > SHORTEST; look += 1) {
    const middle = (passed + next) / 2;
    now = await seek(middle);
    if (now <= shown) passed = middle;
    else next = now;
  }
  return now === next ? next : seek(next + SHORTEST / 2);
}

/** The length of a frame, seconds, and whether all are of that length. */
export type FrameGap = { seconds: number; even: boolean };

/** Gaps that must have been seen before frames are taken to come evenly. */
const ENOUGH_GAPS = 8;

/**
 * The length of a frame from the beginnings of frames that were shown while playing: the median gap. Frames that the
 * browser left out make a gap twice or three times as long, which is still even. A 25th of a second before any is seen.
 */
export function frameGap(shown: readonly number[]): FrameGap {
  const sorted = [...new Set(shown)].sort((a, b) => a - b);
  const gaps = sorted
    .slice(1)
    .map((at, index) => at - (sorted[index] ?? 0))
    .filter((gap) => gap > 0.004 && gap < 0.25)
    .sort((a, b) => a - b);
  const seconds = gaps[Math.floor(gaps.length / 2)] ?? 1 / 25;
  const whole = (gap: number) => Math.abs(gap / seconds - Math.max(1, Math.round(gap / seconds))) < 0.1;
  return { seconds, even: gaps.length >= ENOUGH_GAPS && gaps.every(whole) };
}
