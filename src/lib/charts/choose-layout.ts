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
};

export const CHOOSE_LAYOUT = {
  [NARROW]: {
    width: NARROW,
    size: 13.5,
    small: 12,
    label: { x: 10, width: 262 },
    usualX: 334,
    strip: [10, 196],
    bar: [212, 334],
    stacked: true,
    head: 38,
  },
  [WIDE]: {
    width: WIDE,
    size: 14,
    small: 12.5,
    label: { x: 12, width: 172 },
    usualX: 232,
    strip: [250, 494],
    bar: [514, 716],
    stacked: false,
    head: 28,
  },
} as const satisfies Record<Width, ChooseLayout>;

/** One and a half octaves to each side: a case in a hundred of an ordinary step lies beyond, and is drawn at the edge. */
export const STRIP_DOMAIN = [2 ** -1.5, 2 ** 1.5] as const;
