/** One stroke of a tally, in view-box units. */
export type TallyStroke = { x1: number; y1: number; x2: number; y2: number };

/** The strokes of one list; `width` and `height` bound them. */
export type Tally = { width: number; height: number; strokes: readonly TallyStroke[] };

const HEIGHT = 28;
const STROKE_GAP = 8;
const BUNDLE_GAP = 12;
const MARGIN = 6;

/**
 * Tally strokes as counted by hand: four upright, the fifth across them. Strokes differ a little in length and slope
 * by a fixed pattern, so that they read as a count made by hand and not as bars.
 *
 * @param count whole cases; anything else counts as none.
 */
export function tallyStrokes(count: number): Tally {
  const whole = Number.isFinite(count) && count > 0 ? Math.floor(count) : 0;
  const strokes: TallyStroke[] = [];
  let x = MARGIN;
  for (let n = 1; n <= whole; n++) {
    if (n % 5 === 0) {
      strokes.push({ x1: x - 4.6 * STROKE_GAP, y1: HEIGHT - 8, x2: x - 0.2 * STROKE_GAP, y2: 7 });
      x += BUNDLE_GAP - STROKE_GAP;
    } else {
      const lean = [0.8, -0.4, 0.5, 0][n % 4] ?? 0;
      strokes.push({ x1: x + lean, y1: 3 + (n % 3), x2: x - lean, y2: HEIGHT - 3 - ((n + 1) % 2) });
      x += STROKE_GAP;
    }
  }
  return { width: Math.max(x + MARGIN, MARGIN * 2), height: HEIGHT, strokes };
}
