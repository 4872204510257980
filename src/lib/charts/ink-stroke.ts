/** A stroke as a pen leaves it: its outline as a path, whole or as the broken line of what is still to come. */
type Ends = { x1: number; y1: number; x2: number; y2: number };

const POINTS = 8;

/** How far the hand shakes at a point, -1..1: no generator, since every page carries the strokes of the head. */
const shake = (seed: number, n: number): number => Math.sin((seed + 1) * 12.9898 + n * 78.233);

/**
 * The outline of a stroke that swells and tapers a little, like ink from a nib; the same ends and seed give the same
 * path every time.
 *
 * @param width of the stroke at its thickest, in the units of the ends
 * @returns an SVG path, closed; '' for ends that are no numbers or lie on each other
 */
export function inkStroke({ x1, y1, x2, y2 }: Ends, width: number, seed: number): string {
  const length = Math.hypot(x2 - x1, y2 - y1);
  if (!(length > 0) || !Number.isFinite(length)) return '';
  const [across, along] = [(y1 - y2) / length, (x2 - x1) / length];
  const at = (n: number, side: 1 | -1): string => {
    const t = n / POINTS;
    // Thin where the pen is set down and lifted, thickest a third of the way.
    const half = (width / 2) * (0.35 + 0.65 * Math.sin(Math.PI * Math.min(1, 0.12 + t * 0.86)) ** 0.7);
    const off = side * half + shake(seed, n) * width * 0.08;
    return `${(x1 + (x2 - x1) * t + across * off).toFixed(1)} ${(y1 + (y2 - y1) * t + along * off).toFixed(1)}`;
  };
  const ns = Array.from({ length: POINTS + 1 }, (_, n) => n);
  return `M${ns.map((n) => at(n, 1)).join('L')}L${[...ns]
    .reverse()
    .map((n) => at(n, -1))
    .join('L')}Z`;
}
