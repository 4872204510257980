import { scaleLinear } from 'd3';
import type { ChooseRow } from './choose-input';
import type { ChooseLayout } from './choose-layout';
import { px } from './drawn';
import { hatchPath } from './shapes';
import { textWidth } from './text-fit';

const BAR = 10;

/** Seconds to px. */
export type Seconds = (value: number) => number;

/** One scale from 0 for all rows, leaving room for the longest number behind its bar. */
export function barScale(rows: readonly ChooseRow[], layout: ChooseLayout): Seconds {
  const values = rows.flatMap(({ bar, waiting }) => [bar && bar.seconds + bar.withEye, bar?.high, waiting?.seconds]);
  const top = Math.max(1, ...values.filter((value): value is number => Number.isFinite(value)));
  const words = Math.max(0, ...rows.map(({ bar }) => (bar ? textWidth(wordsOf(bar, layout), layout.size, true) : 0)));
  const scale = scaleLinear()
    .domain([0, top])
    .range([layout.bar[0], layout.bar[1] - words - 8])
    .clamp(true);
  return (value) => px(scale(value));
}

const wordsOf = (bar: NonNullable<ChooseRow['bar']>, layout: ChooseLayout) =>
  layout.stacked ? bar.said : bar.said + bar.saidWithEye;

/** Median less 20th percentile with its interval and its number; beyond it, hatched, what goes with the eye. */
export function drawBar(bar: NonNullable<ChooseRow['bar']>, middle: number, layout: ChooseLayout, seconds: Seconds) {
  if (!Number.isFinite(bar.seconds) || bar.seconds < 0) return null;
  const end = seconds(bar.seconds);
  const [low, high] = [bar.low, bar.high].map((value) => (Number.isFinite(value) ? seconds(Math.max(0, value)) : end));
  const whole = Number.isFinite(bar.withEye) ? Math.max(end, seconds(bar.seconds + bar.withEye)) : end;
  const eye = { x: end, y: px(middle - BAR / 2), width: px(whole - end), height: BAR };
  return {
    eye: eye.width > 1 ? { outline: eye, hatch: hatchPath(eye.x, eye.y, eye.width, eye.height) } : null,
    x: layout.bar[0],
    y: px(middle - BAR / 2),
    width: Math.max(1, px(end - layout.bar[0])),
    height: BAR,
    low: low ?? end,
    high: high ?? end,
    words: { x: px(Math.max(whole, high ?? end) + 6), y: middle + 5, text: wordsOf(bar, layout) },
  };
}

/** Narrow and hatched, under the bar: waiting is nobody's step time. */
export function drawWaiting(
  waiting: { seconds: number; said: string },
  middle: number,
  layout: ChooseLayout,
  seconds: Seconds,
) {
  const outline = {
    x: layout.bar[0],
    y: px(middle + BAR / 2 + 3),
    width: Math.max(2, px(seconds(waiting.seconds) - layout.bar[0])),
    height: 5,
  };
  const room = layout.bar[1] - textWidth(waiting.said, layout.small);
  return {
    outline,
    hatch: hatchPath(outline.x, outline.y, outline.width, outline.height),
    words: layout.stacked
      ? { x: layout.bar[0], y: middle + 24, text: waiting.said }
      : { x: px(Math.min(outline.x + outline.width + 6, room)), y: middle + 17, text: waiting.said },
  };
}
