/** A chance in tenths: 0.61 → "about 6 times in 10". Never rounded to certainty. */
export function timesInTen(chance: number): string {
  const tenths = Math.round(chance * 10);
  if (tenths <= 0) return 'less than 1 time in 10';
  if (tenths >= 10) return 'more than 9 times in 10';
  return tenths === 1 ? 'about 1 time in 10' : `about ${tenths} times in 10`;
}

/** A share as a whole number out of 100: 0 and 100 only where it is exactly that. */
export function ofHundred(share: number): number {
  if (share <= 0 || share >= 1) return Math.round(share * 100);
  return Math.min(99, Math.max(1, Math.round(share * 100)));
}

/** A rate in 100 as people read it: 0.0004 → "0.04", 0.089 → "8.9", 0.139 → "14". */
export function inHundred(rate: number): string {
  const value = rate * 100;
  if (value >= 10) return String(Math.round(value));
  // Halves round up, even where 0.0195 is stored as a hair below 1.95 in 100.
  const to = (places: number) => String(Math.round(value * places * (1 + Number.EPSILON)) / places);
  return value >= 0.1 ? to(10) : to(100);
}
