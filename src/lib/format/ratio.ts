/** A ratio as a percentage: 0.82 → "18 % less", 1.14 → "14 % more", 1 → "no difference". */
export function lessOrMore(ratio: number): string {
  const percent = Math.round((ratio - 1) * 100);
  if (percent === 0) return 'no difference';
  return percent < 0 ? `${-percent}\u00A0% less` : `${percent}\u00A0% more`;
}

/** An interval of ratios: "9 to 26 % less", "from 17 % less to 6 % more". */
export function rangeOfRatios(low: number, high: number): string {
  const [from, to] = [Math.round((low - 1) * 100), Math.round((high - 1) * 100)];
  if (to < 0) return `${-to} to ${-from}\u00A0% less`;
  if (from > 0) return `${from} to ${to}\u00A0% more`;
  return `from ${lessOrMore(low)} to ${lessOrMore(high)}`;
}

/** The same as a sentence goes on: "anything from 9 to 26 % less fits". */
export function fromRangeOfRatios(low: number, high: number): string {
  const words = rangeOfRatios(low, high);
  return words.startsWith('from') ? words : `from ${words}`;
}

/**
 * How many times as long, with its interval, all three to the same precision: 1.7 (1.4 to 2.1). Two decimals below 1, and
 * wherever one decimal would print 1 for a figure that is not 1: 1.13 (1.04 to 1.22). None from 10 up.
 */
export function timesAsLong({ ratio, low, high }: { ratio: number; low: number; high: number }): {
  ratio: string;
  low: string;
  high: string;
} {
  const places = Math.max(...[ratio, low, high].map((value) => placesOf(value, ratio)));
  const said = (value: number) => String(Number(value.toFixed(places)));
  return { ratio: said(ratio), low: said(low), high: said(high) };
}

/** One ratio without an interval: 1.04 → "1.04", 1.83 → "1.8", 12.4 → "12". */
export const times = (ratio: number): string => String(Number(ratio.toFixed(placesOf(ratio, ratio))));

/** Printed, it would say "1 times as long": nothing to name. */
export const roundsToOne = (ratio: number): boolean => times(ratio) === '1';

/** A ratio as a multiple with its interval: "about 1.7 times as long (1.4 to 2.1)". */
export function longerBy(effect: { ratio: number; low: number; high: number }): string {
  const { ratio, low, high } = timesAsLong(effect);
  return `about ${ratio} times as long (${low} to ${high})`;
}

function placesOf(value: number, size: number): 0 | 1 | 2 {
  if (size >= 10) return 0;
  return value < 1 || (value !== 1 && Number(value.toFixed(1)) === 1) ? 2 : 1;
}
