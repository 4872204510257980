/** Numbers as they stand in a reason: short, with their unit. Screens have their own, longer words. */
export const ofHundred = (share: number): string => `${Math.round(100 * share)} of 100`;

export function shortSeconds(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  const rest = whole % 60;
  return rest === 0 ? `${Math.floor(whole / 60)} min` : `${Math.floor(whole / 60)} min ${rest} s`;
}

/** "1.8", "3", "12": two figures are all a ratio of times can bear. */
export const shortRatio = (ratio: number): string => String(ratio >= 10 ? Math.round(ratio) : Number(ratio.toFixed(1)));

export const listed = (items: readonly string[]): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;

/** Whose cases a reference set holds. */
export const othersCases = ({ n, readers }: { n: number; readers: number }): string =>
  `${n} case${n === 1 ? '' : 's'} of ${readers === 1 ? 'another surgeon' : `${readers} other surgeons`}`;
