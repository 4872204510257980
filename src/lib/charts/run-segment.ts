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
  median: { y: number; named: boolean } | null;
  limits: readonly number[];
  marked: readonly (Words & { anchor: 'start' | 'middle' | 'end' })[];
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
  const marked: DrawnSegment['marked'][number][] = [];
  for (const { x, each } of here) {
    if (each.leftOut) crosses.push(shapePath('cross', x, bottom, 3));
    if (each.leftOut || !isRatio(each.ratio)) continue;
    const y = axis.at(each.ratio);
    if (y.out) beyond.push(shapePath(y.out === 'high' ? 'up' : 'down', x, y.at, 3));
    else
      marks.push(
        shapePath(shape === 'open-square' ? 'square' : 'circle', x, y.at, shape === 'open-square' ? 2.3 : 2.6),
      );
    if (each.mark)
      marked.push({
        x,
        y: y.at - 9,
        text: each.mark,
        anchor: anchorOf(x, textWidth(each.mark, small, true), left, right),
      });
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

/** Words over a mark near an edge lean inwards, so that they stay on the drawing. */
function anchorOf(x: number, width: number, left: number, right: number): 'start' | 'middle' | 'end' {
  if (x + width / 2 > right) return 'end';
  return x - width / 2 < left ? 'start' : 'middle';
}
