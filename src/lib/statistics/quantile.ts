import { requireNumbers, sorted, type Numbers } from './numbers';

/** Plotting positions of Hyndman and Fan's continuous types used here: [a, b]. */
const POSITION = { 7: [1, 1], 8: [1 / 3, 1 / 3] } as const;

/**
 * The value below which a share `p` of a population lies, estimated from a sample.
 * Type 8 (about median-unbiased whatever the distribution) unless said: Hyndman and Fan, Am. Stat. 1996;50:361.
 * Type 7 is what spreadsheets and R print by default.
 * @param p share, 0..1
 * @throws on an empty row, a value that is not a number, or p outside 0..1
 */
export function quantile(values: Numbers, p: number, type: 7 | 8 = 8): number {
  requireNumbers('quantile', values);
  return quantileOfSorted(sorted(values), p, type);
}

/** The same for values already in order, for callers that ask several times. */
export function quantileOfSorted(ordered: Numbers, p: number, type: 7 | 8 = 8): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`quantile requires a share from 0 to 1, not ${p}`);
  const n = ordered.length;
  const [a, b] = POSITION[type];
  const place = a + p * (n + 1 - a - b);
  // R's fuzz: 0.3 × 10 must count as 3, not as 2.9999999999999996.
  const below = Math.floor(place + 4 * Number.EPSILON);
  const rest = Math.abs(place - below) < 4 * Number.EPSILON ? 0 : place - below;
  const at = (k: number) => ordered[Math.min(Math.max(k, 1), n) - 1]!;
  const low = at(below);
  return rest === 0 ? low : low + rest * (at(below + 1) - low);
}
