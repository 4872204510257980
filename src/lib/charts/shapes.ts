import { px } from './drawn';

/**
 * Marks as path data. Many marks of a kind go into one path: a hundred cases of twelve steps are then twelve elements,
 * not twelve hundred, which keeps the page small and its checks quick. Groups are told by shape, never by hue.
 */
export type Shape = 'circle' | 'square' | 'diamond' | 'cross' | 'left' | 'right' | 'up' | 'down';

export function shapePath(shape: Shape, x: number, y: number, r: number): string {
  const [cx, cy] = [px(x), px(y)];
  switch (shape) {
    case 'circle':
      return `M${px(x - r)},${cy}a${r},${r} 0 1 0 ${2 * r},0a${r},${r} 0 1 0 ${-2 * r},0Z`;
    case 'square':
      return `M${px(x - r)},${px(y - r)}h${2 * r}v${2 * r}h${-2 * r}Z`;
    case 'diamond':
      return `M${cx},${px(y - r)}l${r},${r}l${-r},${r}l${-r},${-r}Z`;
    case 'cross':
      return `M${px(x - r)},${px(y - r)}l${2 * r},${2 * r}M${px(x - r)},${px(y + r)}l${2 * r},${-2 * r}`;
    case 'left':
      return `M${px(x + r)},${px(y - r)}l${-r},${r}l${r},${r}`;
    case 'right':
      return `M${px(x - r)},${px(y - r)}l${r},${r}l${-r},${r}`;
    case 'up':
      return `M${px(x - r)},${px(y + r)}l${r},${-r}l${r},${r}`;
    case 'down':
      return `M${px(x - r)},${px(y - r)}l${r},${r}l${r},${-r}`;
  }
}

/** Slanting lines that fill a box: hatching without a pattern element, whose id would have to be unique on a page. */
export function hatchPath(x: number, y: number, width: number, height: number, gap = 4): string {
  if (!(width > 0) || !(height > 0)) return '';
  const lines: string[] = [];
  for (let at = gap / 2; at < width + height; at += gap) {
    const from = { x: x + Math.min(at, width), y: y + Math.max(0, at - width) };
    const to = { x: x + Math.max(0, at - height), y: y + Math.min(at, height) };
    lines.push(`M${px(from.x)},${px(from.y)}L${px(to.x)},${px(to.y)}`);
  }
  return lines.join('');
}
