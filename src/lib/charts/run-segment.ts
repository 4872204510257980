import { px } from './drawn';
import { isRatio, type RatioAxis } from './ratio-axis';
import type { RunCase, RunInput } from './run-input';
import { shapePath } from './shapes';
import { fitText, textWidth } from './text-fit';

export type Words = { x: number; y: number; text: string };

export type DrawnSegment = {
  key: string;
  shape: RunInput['periods'][number]['shape'];
  from: number;
  to: number;
  /** Over the cases: a bracket with its name. */
  bracket: string;
  name: Words;
  marks: string;
  /** Cases beyond the axis, at its edge. */
  beyond: string;
  crosses: string;
  /** Cases that are pointed out. */
  pointed: string;
  median: { y: number; named: boolean } | null;
  limits: readonly number[];
  /** Beside a case that is pointed out, where the words cover no other; `leader`: a line to it where they stand off. */
  marked: readonly (Words & { anchor: 'start' | 'middle' | 'end'; leader: string | null })[];
};

/** Where a panel lies, px. */
export type Place = { axis: RatioAxis; left: number; right: number; top: number; bottom: number; small: number };

/** The cases of one period: bracket, marks, median, limits. */
export function drawSegment(
  { period: index, cases, total }: { period: number; cases: readonly RunCase[]; total: number },
  here: readonly { x: number; each: RunCase }[],
  input: RunInput,
  { axis, from, to, left, right, top, bottom, small }: Place & { from: number; to: number },
): DrawnSegment {
  const period = input.periods[index];
  const shape = period?.shape ?? 'open-circle';
  const marks: string[] = [];
  const beyond: string[] = [];
  const crosses: string[] = [];
  const pointed: string[] = [];
  const at: { x: number; y: number }[] = [];
  const marked: DrawnSegment['marked'][number][] = [];
  for (const { x, each } of here) {
    if (each.leftOut) crosses.push(shapePath('cross', x, bottom, 3));
    if (each.leftOut || !isRatio(each.ratio)) continue;
    const y = axis.at(each.ratio);
    if (each.mark) pointed.push(shapePath('circle', x, y.at, 3.8));
    else if (y.out) beyond.push(shapePath(y.out === 'high' ? 'up' : 'down', x, y.at, 3));
    else
      marks.push(
        shapePath(shape === 'open-square' ? 'square' : 'circle', x, y.at, shape === 'open-square' ? 2.3 : 2.6),
      );
    at.push({ x, y: y.at });
  }
  for (const { x, each } of here) {
    if (!each.mark || each.leftOut || !isRatio(each.ratio)) continue;
    const width = textWidth(each.mark, small, true);
    const anchor = anchorOf(x, width, left, right);
    const middle = anchor === 'middle' ? x : anchor === 'end' ? x - width / 2 : x + width / 2;
    const words = freePlace({ x: middle, y: axis.at(each.ratio).at }, width / 2, at, [top, bottom]);
    // Further words would lie over the first as over any mark.
    for (const part of [-0.5, 0, 0.5])
      at.push(...[0, WORDS].map((up) => ({ x: middle + part * width, y: words.y - up })));
    marked.push({ x, y: words.y, text: each.mark, anchor, leader: words.leader && `M${x},${words.leader.join('V')}` });
  }
  const [a, b] = [px(from + 2), px(to - 2)];
  const name = cases.length < total ? `latest ${cases.length} of ${total}` : (period?.label ?? '');
  const room = b - a;
  return {
    key: `${index}-${here[0]?.each.id ?? ''}`,
    shape,
    from: a,
    to: b,
    bracket: `M${a},${top - 4}v-6H${b}v6`,
    name: {
      x: px((a + b) / 2),
      y: top - 14,
      text: fitText(name, Math.max(room, textWidth('next twenty', small)), small),
    },
    marks: marks.join(''),
    beyond: beyond.join(''),
    crosses: crosses.join(''),
    pointed: pointed.join(''),
    median: isRatio(period?.median) ? { y: axis.at(period.median).at, named: period.named } : null,
    limits:
      input.limits && index === 0
        ? [input.limits.low, input.limits.high]
            .filter(isRatio)
            .map((limit) => axis.at(limit))
            .flatMap(({ at, out }) => (out === null ? [at] : []))
        : [],
    marked,
  };
}

/** Height of the words above their baseline, px. */
const WORDS = 11;

/**
 * The baseline nearest to a mark, above it or below, at which words of this half width cover no mark; where every place
 * is taken, just above it.
 */
function freePlace(
  { x, y }: { x: number; y: number },
  half: number,
  marks: readonly { x: number; y: number }[],
  [top, bottom]: readonly [number, number],
): { y: number; leader: [number, number] | null } {
  const near = marks.filter((mark) => Math.abs(mark.x - x) < half + 5);
  for (let away = 9; away < bottom - top; away += 2)
    for (const baseline of [y - away, y + away + WORDS - 2]) {
      if (baseline - WORDS < top - 2 || baseline > bottom - 3) continue;
      if (near.some((mark) => mark.y > baseline - WORDS - 4 && mark.y < baseline + 6)) continue;
      const leader: [number, number] = baseline < y ? [px(baseline + 4), px(y - 4)] : [px(y + 4), px(baseline - WORDS)];
      return { y: px(baseline), leader: away > 13 ? leader : null };
    }
  return { y: px(y - 9), leader: null };
}

/** Words over a mark near an edge lean inwards, so that they stay on the drawing. */
function anchorOf(x: number, width: number, left: number, right: number): 'start' | 'middle' | 'end' {
  if (x + width / 2 > right) return 'end';
  return x - width / 2 < left ? 'start' : 'middle';
}
