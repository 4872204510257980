import { SECTION, SECTION_CLOSE } from './anatomy/section';
import { TOP, TOP_CLOSE } from './anatomy/top';
import { WALL, WALL_CLOSE } from './anatomy/wall';
import { flatten, type Mark, type Marks } from './pencil/marks';
import { mirrored } from './pencil/mirror';
import type { Frame } from './pencil/labels';

/** The hand that holds the knife and the phaco tip. Drawings are made for the right one. */
export type Hand = 'right' | 'left';

/**
 * One drawing. Its id is the id of the checkpoint it stands beside, or of an eye card or a rehearsal (`eye-…`,
 * `rehearsal-…`). Words may say `{right}` and `{left}`: the sides change with the hand.
 */
export type Scene = {
  id: string;
  title: string;
  /** What can be seen, for those who cannot see it. */
  description: string;
  /** What the large form shows, with its labels; 320 px wide, so that 13 px words stay above 12 px from 300 px up. */
  frame: Frame;
  /** What the small form shows. */
  close: Frame;
  draw: (hand: Hand) => Marks;
};

export const otherHand = (hand: Hand): Hand => (hand === 'right' ? 'left' : 'right');

/** A scene's marks as they stand for a hand: all of it mirrored for the left one, but for what is fixed. */
export function marksOf(scene: Scene, hand: Hand): Mark[] {
  const marks = flatten(scene.draw(hand));
  return hand === 'left' ? marks.map(mirrored) : marks;
}

const mirrorFrame = ([x, y, width, height]: Frame): Frame => [-x - width, y, width, height];

export const frameOf = (scene: Scene, form: 'frame' | 'close', hand: Hand): Frame =>
  hand === 'left' ? mirrorFrame(scene[form]) : scene[form];

/** `{right}` and `{left}` as they are for a hand. */
export const sidesIn = (text: string, hand: Hand): string =>
  text.replace(/\{(right|left)\}/g, (_, side: Hand) => (hand === 'left' ? otherHand(side) : side));

type Draw = Scene['draw'];
const sceneIn =
  (frame: Frame, close: Frame) =>
  (id: string, title: string, description: string, draw: Draw): Scene => ({
    id,
    title,
    description,
    frame,
    close,
    draw,
  });

/** The eye from above, cut through its axis, and its wall cut through the limbus. */
export const topScene = sceneIn(TOP, TOP_CLOSE);
export const sectionScene = sceneIn(SECTION, SECTION_CLOSE);
export const wallScene = sceneIn(WALL, WALL_CLOSE);
/** A frame of its own: a close-up, or two drawings in one. */
export const sceneOf = (frame: Frame, close: Frame = frame) => sceneIn(frame, close);
