import type { Corner, Mark } from './marks';
import type { Point } from './points';

const OTHER: Record<Corner, Corner> = { tl: 'tr', tr: 'tl', bl: 'br', br: 'bl', top: 'top', bottom: 'bottom' };
const SIDE = { start: 'end', middle: 'middle', end: 'start' } as const;

const flip = ([x, y]: Point): Point => [-x, y];
const all = (contours: readonly (readonly Point[])[]) => contours.map((each) => each.map(flip));

/**
 * A mark for the other hand: wounds, instruments and words change sides. Marks that are `fixed` stay, and so does every
 * haptic: a mirrored lens would lie upside down, so a scene with a lens says for each hand where the lens is.
 */
export function mirrored(mark: Mark): Mark {
  if (mark.fixed) return mark;
  switch (mark.kind) {
    case 'pen':
      return { ...mark, points: mark.points.map(flip) };
    case 'line':
      return { ...mark, lines: all(mark.lines) };
    case 'fill':
    case 'stipple':
      return { ...mark, contours: all(mark.contours) };
    case 'hatch':
      return { ...mark, contours: all(mark.contours), angle: -mark.angle };
    case 'circle':
      return { ...mark, at: flip(mark.at) };
    case 'haptic':
      return mark;
    case 'label':
      return {
        ...mark,
        to: mark.to && flip(mark.to),
        place:
          typeof mark.place === 'string'
            ? OTHER[mark.place]
            : { at: flip(mark.place.at), anchor: SIDE[mark.place.anchor] },
      };
  }
}
