/** A drawing that cannot be made says why, instead of breaking the page it stands on. */
export type CannotDraw = { kind: 'cannot-draw'; because: string };

/** One thing the reader can go to with the arrow keys: where it lies and what is said of it. */
export type Point = { x: number; y: number; say: string };

/** What every drawing has beside its own marks. `points`: rows top to bottom, each left to right. */
export type Drawing = { kind: 'drawing'; width: number; height: number; points: readonly (readonly Point[])[] };

/** The narrow drawing fits a phone of 360 px less the page's margins; the wide one a tablet of 768 px, and grows at a desk. */
export const NARROW = 328;
export const WIDE = 760;
/** Across the whole page at a desk, for what has many cases. */
export const FULL = 1168;
export type Width = typeof NARROW | typeof WIDE | typeof FULL;

export function cannotDraw(because: string): CannotDraw {
  return { kind: 'cannot-draw', because };
}

/** One decimal is a tenth of a pixel: enough to draw with, and half the page's weight. */
export function px(value: number): number {
  return Math.round(value * 10) / 10;
}
