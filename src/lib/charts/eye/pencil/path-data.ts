import { itemAt } from '../../../item-at';
import { between, size, sub, type Point } from './points';

const tenth = (value: number) => Math.round(value * 10) / 10;
const digits = (value: number) => {
  const text = tenth(value)
    .toString()
    .replace(/^(-?)0\./, '$1.');
  return text === '-0' ? '0' : text;
};
/** Two numbers as short as the grammar of path data allows. */
const pair = (dx: number, dy: number) => {
  const b = digits(dy);
  return digits(dx) + (b.startsWith('-') ? '' : ' ') + b;
};
const joined = (before: string, after: string) => (after.startsWith('-') ? before + after : `${before} ${after}`);
const rounded = (p: Point): Point => [tenth(p[0]), tenth(p[1])];

/** Straight pieces. A point alone becomes a line of no length, which a round cap shows as a dot. */
export function sharpPath(points: readonly Point[], closed = false): string {
  let here = rounded(itemAt(points, 0));
  let d = `M${pair(...here)}`;
  if (points.length === 1) return `${d}h0`;
  points.slice(1).forEach((p, i) => {
    const there = rounded(p);
    const step = pair(there[0] - here[0], there[1] - here[1]);
    d = i === 0 ? `${d}l${step}` : joined(d, step);
    here = there;
  });
  return closed ? `${d}Z` : d;
}

/** Smooth pieces: quadratic curves from middle to middle, written relative (and as `t`, where the control point mirrors). */
export function smoothPath(points: readonly Point[], closed = false): string {
  if (points.length < 3) return sharpPath(points, closed);
  const q = closed ? [...points, itemAt(points, 0), itemAt(points, 1)] : points;
  let here = rounded(closed ? between(itemAt(points, 0), itemAt(points, 1), 0.5) : itemAt(points, 0));
  let d = `M${pair(...here)}`;
  let control: Point | null = null;
  let inRun = false;
  for (let i = 1; i < q.length - 1; i++) {
    const last = !closed && i === q.length - 2;
    const there = rounded(last ? itemAt(q, i + 1) : between(itemAt(q, i), itemAt(q, i + 1), 0.5));
    const step = pair(there[0] - here[0], there[1] - here[1]);
    const mirror: Point | null = control && [2 * here[0] - control[0], 2 * here[1] - control[1]];
    if (mirror && size(sub(mirror, itemAt(q, i))) <= 0.3) {
      d = inRun ? joined(d, step) : `${d}t${step}`;
      control = mirror;
      inRun = true;
    } else {
      control = rounded(itemAt(q, i));
      d += `q${joined(pair(control[0] - here[0], control[1] - here[1]), step)}`;
      inRun = false;
    }
    here = there;
  }
  return closed ? `${d}Z` : d;
}
