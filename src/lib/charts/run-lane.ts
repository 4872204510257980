import { px } from './drawn';
import type { RunCase } from './run-input';
import type { Words } from './run-segment';

export type DrawnLane = { name: string; y: number; path: string; letters: readonly Words[] };

/** What went with the cases above: dashes for lists, strokes for notes, letters for events. */
export function drawLane(
  name: 'lists' | 'notes' | 'events',
  placed: readonly { x: number; each: RunCase }[],
  step: number,
  y: number,
): DrawnLane {
  if (name === 'notes')
    return {
      name,
      y,
      letters: [],
      path: placed
        .filter(({ each }) => each.note)
        .map(({ x }) => `M${x},${y - 5}v10`)
        .join(''),
    };
  if (name === 'events')
    return {
      name,
      y,
      path: '',
      letters: placed
        .filter(({ each }) => each.events !== 'none')
        .map(({ x, each }) => ({ x, y: y + 4, text: each.events === 'event' ? 'E' : '?' })),
    };
  const dashes: string[] = [];
  let from = 0;
  placed.forEach(({ x, each }, index) => {
    const next = placed[index + 1];
    if (next && each.list !== null && next.each.list === each.list) return;
    const start = placed[from];
    if (start && each.list !== null) dashes.push(`M${px(start.x - step / 2 + 1)},${y}H${px(x + step / 2 - 1)}`);
    from = index + 1;
  });
  return { name, y, letters: [], path: dashes.join('') };
}
