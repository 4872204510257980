import { NARROW, WIDE, type Width } from './drawn';

/** Where the columns of the Choose drawing lie, px. Beside each other at a desk, under each other on a phone. */
export type ChooseLayout = {
  width: Width;
  size: number;
  small: number;
  label: { x: number; width: number };
  usualX: number;
  strip: readonly [number, number];
  bar: readonly [number, number];
  /** The name has a line of its own above the strip. */
  stacked: boolean;
  head: number;
  /** Every row is as high as the others, its dots and its words at the same place in it. */
  pitch: number;
  middle: number;
  baseline: number;
};

export const CHOOSE_LAYOUT = {
  [NARROW]: {
    width: NARROW,
    size: 14,
    small: 13,
    label: { x: 0, width: 250 },
    usualX: 328,
    strip: [2, 212],
    bar: [230, 328],
    stacked: true,
    head: 26,
    pitch: 58,
    middle: 32,
    baseline: 15,
  },
  [WIDE]: {
    width: WIDE,
    size: 14,
    small: 13,
    label: { x: 0, width: 158 },
    usualX: 200,
    strip: [214, 514],
    bar: [540, 760],
    stacked: false,
    head: 30,
    pitch: 38,
    middle: 19,
    baseline: 24,
  },
} as const satisfies Partial<Record<Width, ChooseLayout>>;

/** One and a half octaves to each side: a case in a hundred of an ordinary step lies beyond, and is drawn at the edge. */
export const STRIP_DOMAIN = [2 ** -1.5, 2 ** 1.5] as const;
