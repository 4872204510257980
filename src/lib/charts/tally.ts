import { itemAt } from '../item-at';
import { inkStroke } from './ink-stroke';

/** One stroke of a tally, in view-box units: its ends, and its outline as a pen leaves it. */
export type TallyStroke = { x1: number; y1: number; x2: number; y2: number; path: string };

/** The strokes of one list; `width` and `height` bound them. */
export type Tally = { width: number; height: number; strokes: readonly TallyStroke[] };

const HEIGHT = 52;
const STROKE_GAP = 10;
const BUNDLE_GAP = 22;
const MARGIN = 5;
const PEN = 2.6;

/**
 * Tally strokes as counted by hand: four upright, the fifth across them. Strokes differ a little in length and slope
 * by a fixed pattern, so that they read as a count made by hand and not as bars.
 *
 * @param count whole cases; anything else counts as none.
 */
export function tallyStrokes(count: number): Tally {
  const whole = Number.isFinite(count) && count > 0 ? Math.floor(count) : 0;
  const strokes: TallyStroke[] = [];
  let [x, right] = [MARGIN, MARGIN];
  for (let n = 1; n <= whole; n++) {
    const across = n % 5 === 0;
    const lean = itemAt([0.6, -0.4, 0.3, 0], n % 4);
    const ends = across
      ? { x1: x - 4.5 * STROKE_GAP, y1: HEIGHT - 12, x2: x + 0.3 * STROKE_GAP, y2: 11 }
      : { x1: x + lean, y1: 4 + (n % 3), x2: x - lean, y2: HEIGHT - 3 - (n % 2) };
    strokes.push({ ...ends, path: inkStroke(ends, PEN, n) });
    right = Math.max(ends.x1, ends.x2);
    x += across ? BUNDLE_GAP - STROKE_GAP : STROKE_GAP;
  }
  return { width: right + MARGIN, height: HEIGHT, strokes };
}
