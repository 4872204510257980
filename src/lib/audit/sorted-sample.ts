/**
 * One step's times prepared for many resamples: sorted once, so that a resample of lists needs no sorting.
 * A resample is a count a list; the k-th smallest of the drawn times is found by binary search in cumulated counts.
 */
export type SortedSample = {
  /** Seconds, rising. */
  seconds: Float64Array;
  log: Float64Array;
  /** List number of each. */
  list: Int32Array;
  /** How many times each list has. */
  size: Int32Array;
  /** Scratch: how many drawn times stand at or before each place. */
  upTo: Int32Array;
};

/** What a resample says of one step. Seconds, and the MAD of logs (not yet made consistent with an SD). */
export type Summary = Level & { logMad: number };
/** Seconds. */
export type Level = { median: number; p20: number };

/** @param values NaN where the step is absent. */
export function sortedSample(values: Float64Array, list: Int32Array): SortedSample {
  const places = Int32Array.from([...values.keys()].filter((place) => !Number.isNaN(values[place]))).sort(
    (a, b) => values[a]! - values[b]!,
  );
  const seconds = Float64Array.from(places, (place) => values[place]!);
  const size = new Int32Array(list.reduce((most, each) => Math.max(most, each + 1), 0));
  for (const place of places) size[list[place]!]! += 1;
  return {
    seconds,
    log: seconds.map(Math.log),
    list: Int32Array.from(places, (place) => list[place]!),
    size,
    upTo: new Int32Array(places.length),
  };
}

/**
 * Median, 20th percentile (type 8) and MAD of logs of a resample: the same numbers as copying each drawn time out,
 * sorting and reading off.
 *
 * @param counts times each list was drawn.
 * @returns `false` when no drawn list holds the step.
 */
export function summarise(sample: SortedSample, counts: Int32Array, into: Summary): boolean {
  const { seconds, log, list, upTo } = sample;
  let drawn = 0;
  for (let i = 0; i < list.length; i += 1) upTo[i] = drawn += counts[list[i]!]!;
  if (drawn === 0) return false;
  const lower = placeOf(upTo, (drawn + 1) >> 1);
  const upper = placeOf(upTo, (drawn + 2) >> 1);
  into.median = (seconds[lower]! + seconds[upper]!) / 2;
  into.p20 = quantileAt(sample, drawn, 0.2);
  into.logMad = madAround(log, upTo, drawn, (log[lower]! + log[upper]!) / 2);
  return true;
}

/**
 * Median and 20th percentile alone: all that is asked of times as recorded. Cumulated only as far as the median, half
 * the work of `summarise` and more.
 *
 * @returns `false` when no drawn list holds the step.
 */
export function summariseLevel(sample: SortedSample, counts: Int32Array, into: Level): boolean {
  const { seconds, list } = sample;
  const drawn = drawnOf(sample, counts);
  if (drawn === 0) return false;
  const { below, share } = positionOf(drawn, 0.2);
  let place = 0;
  let upTo = counts[list[0]!]!;
  while (upTo < below) upTo += counts[list[++place]!]!;
  const low = seconds[place]!;
  into.p20 = low;
  if (share > 0) {
    while (upTo < below + 1) upTo += counts[list[++place]!]!;
    into.p20 = low + share * (seconds[place]! - low);
  }
  const half = (drawn + 1) >> 1;
  while (upTo < half) upTo += counts[list[++place]!]!;
  const lower = seconds[place]!;
  const next = (drawn + 2) >> 1;
  while (upTo < next) upTo += counts[list[++place]!]!;
  into.median = (lower + seconds[place]!) / 2;
  return true;
}

/** How many times a resample holds. */
export function drawnOf({ size }: SortedSample, counts: Int32Array): number {
  let drawn = 0;
  for (let list = 0; list < size.length; list += 1) drawn += size[list]! * counts[list]!;
  return drawn;
}

/** Place of the k-th smallest drawn time, k from 1. */
function placeOf(upTo: Int32Array, k: number): number {
  let low = 0;
  let high = upTo.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (upTo[middle]! >= k) high = middle;
    else low = middle + 1;
  }
  return low;
}

function quantileAt({ seconds, upTo }: SortedSample, drawn: number, p: number): number {
  const { below, share } = positionOf(drawn, p);
  const low = seconds[placeOf(upTo, below)]!;
  return share === 0 ? low : low + share * (seconds[placeOf(upTo, below + 1)]! - low);
}

/** Quantile type 8 (Hyndman and Fan, Am. Stat. 1996;50:361) lies this share of the way from the k-th smallest to the next. */
function positionOf(drawn: number, p: number): { below: number; share: number } {
  const position = Math.min(Math.max((drawn + 1 / 3) * p + 1 / 3, 1), drawn);
  const below = Math.floor(position + 1e-12);
  const share = position - below;
  return { below, share: below >= drawn || Math.abs(share) < 1e-12 ? 0 : share };
}

/** Median distance from the centre. Distances rise to both sides of it, so the k-th nearest is found without sorting them. */
function madAround(log: Float64Array, upTo: Int32Array, drawn: number, centre: number): number {
  const right = firstAtLeast(log, centre);
  const lower = kthDistance(log, upTo, right, centre, (drawn + 1) >> 1);
  return drawn % 2 === 1 ? lower : (lower + kthDistance(log, upTo, right, centre, (drawn + 2) >> 1)) / 2;
}

/** The k-th smallest distance of drawn values from the centre: the least distance within which k of them lie. */
function kthDistance(log: Float64Array, upTo: Int32Array, right: number, centre: number, k: number): number {
  return Math.min(leastOnRight(log, upTo, right, centre, k), leastOnLeft(log, upTo, right, centre, k));
}

function leastOnRight(log: Float64Array, upTo: Int32Array, right: number, centre: number, k: number): number {
  let low = right;
  let high = log.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const distance = log[middle]! - centre;
    const left = firstWithin(log, right, centre, distance);
    if (upTo[middle]! - (left > 0 ? upTo[left - 1]! : 0) >= k) high = middle;
    else low = middle + 1;
  }
  return low < log.length ? log[low]! - centre : Infinity;
}

function leastOnLeft(log: Float64Array, upTo: Int32Array, right: number, centre: number, k: number): number {
  let low = -1;
  let high = right - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    const last = lastWithin(log, right, centre, centre - log[middle]!);
    if ((last >= 0 ? upTo[last]! : 0) - (middle > 0 ? upTo[middle - 1]! : 0) >= k) low = middle;
    else high = middle - 1;
  }
  return low >= 0 ? centre - log[low]! : Infinity;
}

function firstAtLeast(log: Float64Array, centre: number): number {
  let low = 0;
  let high = log.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (log[middle]! >= centre) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** First place left of the centre no further from it than `distance`. */
function firstWithin(log: Float64Array, right: number, centre: number, distance: number): number {
  let low = 0;
  let high = right;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (centre - log[middle]! <= distance) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Last place right of the centre no further from it than `distance`; `right − 1` when there is none. */
function lastWithin(log: Float64Array, right: number, centre: number, distance: number): number {
  let low = right - 1;
  let high = log.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (log[middle]! - centre <= distance) low = middle;
    else high = middle - 1;
  }
  return low;
}
