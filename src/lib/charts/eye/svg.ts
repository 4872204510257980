import { itemAt } from '../../item-at';
import type { Circle, Label, Line, Mark } from './pencil/marks';
import { LABEL_LINE, placeLabel, type Frame } from './pencil/labels';
import { sharpPath, smoothPath } from './pencil/path-data';
import { strokeOutline } from './pencil/pen';
import { hatchLines, stippleDots } from './pencil/tones';
import { frameOf, marksOf, sidesIn, type Hand, type Scene } from './scene';

export type SvgOptions = {
  /** For 80 to 180 px: no words, fewer and heavier lines, closer in. */
  small?: boolean;
  hand?: Hand;
  /** Before each id, where one drawing stands twice on a page. */
  key?: string;
  /** Beside words that already say it: hidden from screen readers. */
  decorative?: boolean;
};

/**
 * A scene as an `<svg>` of classes only, with title and description: no colour, no style, no script. `EyeScene.svelte`
 * holds its look.
 */
export function svgOf(
  scene: Scene,
  { small = false, hand = 'right', key = '', decorative = false }: SvgOptions = {},
): string {
  const frame = frameOf(scene, small ? 'close' : 'frame', hand);
  const id = `eye-${key}${scene.id}`;
  const words = decorative
    ? ''
    : `<title id="${id}-t">${escaped(sidesIn(scene.title, hand))}</title><desc id="${id}-d">${escaped(sidesIn(scene.description, hand))}</desc>`;
  const role = decorative ? 'aria-hidden="true"' : `role="img" aria-labelledby="${id}-t" aria-describedby="${id}-d"`;
  const body = marksOf(scene, hand)
    .map((mark) => (small ? smallMark(mark) : largeMark(mark, frame)))
    .join('');
  return `<svg class="eye${small ? ' eye-small' : ''}" viewBox="${frame.join(' ')}" ${role}>${words}${body}</svg>`;
}

const largeMark = (mark: Mark, frame: Frame) => (mark.kind === 'label' ? labelOf(mark, frame) : written(mark, 1, 1));

/** Fine texture would turn to grey at this size: fibres go, tones open up, edges grow. */
function smallMark(mark: Mark): string {
  if (mark.kind === 'label' || (mark.kind === 'line' && mark.weight === 'iris')) return '';
  return written(mark, mark.kind === 'pen' || mark.kind === 'haptic' ? 1.55 : 1.2, 1.5);
}

function written(mark: Exclude<Mark, Label>, thicker: number, wider: number): string {
  switch (mark.kind) {
    case 'pen': {
      const d = strokeOutline(mark, thicker).map((each) => smoothPath(each, true));
      return path(`es-${mark.accent ? 'accent' : 'ink'}${mark.closed ? ' es-eo' : ''}`, d.join(''));
    }
    case 'haptic': {
      if (mark.covered)
        return path(`es-line es-dash es-haptic${mark.accent ? ' es-accentline' : ''}`, smoothPath(mark.course));
      const outline = strokeOutline(
        { ...mark, kind: 'pen', points: mark.course, width: 2.8, closed: false, land: 0.05, lift: 0.08 },
        thicker,
      );
      return path(`es-${mark.accent ? 'accent' : 'ink'} es-haptic`, smoothPath(itemAt(outline, 0), true));
    }
    case 'line':
      return path(
        lineClass(mark),
        mark.lines.map((each) => (mark.sharp ? sharpPath(each) : smoothPath(each))).join(''),
      );
    case 'fill':
      return path(
        `es-${mark.tone}`,
        mark.contours.map((each) => (mark.sharp ? sharpPath(each, true) : smoothPath(each, true))).join(''),
      );
    case 'hatch':
      return path(
        mark.weight === 'ink' ? 'es-hatch' : 'es-hair',
        hatchLines(mark.contours, mark.angle, mark.gap * wider)
          .map((each) => sharpPath(each))
          .join(''),
      );
    case 'stipple':
      return path(
        `es-dots${mark.accent ? ' es-accentline' : ''}`,
        stippleDots(mark.contours, mark.gap * wider)
          .map((each) => sharpPath([each]))
          .join(''),
      );
    case 'circle':
      return `<circle class="${CIRCLE[mark.look]}" cx="${short(mark.at[0])}" cy="${short(mark.at[1])}" r="${short(mark.radius * thicker)}"/>`;
  }
}

const CIRCLE: Record<Circle['look'], string> = { dot: 'es-accent', 'ink-dot': 'es-ink', mark: 'es-mark' };

const lineClass = ({ weight, dash, accent }: Line) =>
  `es-${weight}${dash === 'none' ? '' : ` es-${dash}`}${accent ? ' es-accentline' : ''}`;

function labelOf(label: Label, frame: Frame): string {
  const { x, y, anchor, leader } = placeLabel(label, frame);
  const spans = label.lines.map(
    (text, i) => `<tspan x="${short(x)}" y="${short(y + i * LABEL_LINE)}">${escaped(text)}</tspan>`,
  );
  const end = leader
    ? path('es-leader', sharpPath(leader)) +
      `<circle class="es-leader-end" cx="${short(leader[1][0])}" cy="${short(leader[1][1])}" r="1.5"/>`
    : '';
  return `${end}<text class="es-label${label.strong ? ' es-strong' : ''}" text-anchor="${anchor}">${spans.join('')}</text>`;
}

const path = (classes: string, d: string) => `<path class="${classes}" d="${d}"/>`;
const short = (value: number) => (Math.round(value * 10) / 10).toString();
const escaped = (text: string) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
