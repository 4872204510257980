/** A place in the order of time; `date` as `YYYY-MM-DD` where the day is known. */
export type Placed = { sequence: number; date: string | null };

/** Index of the first of `sorted` that is later than `date`. */
const firstLater = (sorted: readonly string[], date: string): number => {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? '') > date) high = middle;
    else low = middle + 1;
  }
  return low;
};

/**
 * Sequence numbers for cases that join a record, in their own order. Those already there keep theirs, because goals
 * remember them; so a dated case older than some already there is placed between them by a fraction, and never counts
 * as "after" a goal it came before. Without a date, cases come after everything.
 * @param incoming in their own order of time
 * @returns one sequence number for each incoming case
 */
export function placeInTime(existing: readonly Placed[], incoming: readonly { date: string | null }[]): number[] {
  const there = [...existing].sort((a, b) => a.sequence - b.sequence);
  // The latest day so far rises along the record even where days are missing or out of order.
  let latest = '';
  const latestSoFar = there.map(({ date }) => (date !== null && date > latest ? (latest = date) : latest));
  const places = incoming.map(({ date }) => (date === null ? there.length : firstLater(latestSoFar, date)));

  const together = new Map<number, number>();
  for (const place of places) together.set(place, (together.get(place) ?? 0) + 1);
  const given = new Map<number, number>();
  return places.map((place) => {
    const nth = (given.get(place) ?? 0) + 1;
    given.set(place, nth);
    const low = there[place - 1]?.sequence ?? 0;
    const high = there[place]?.sequence;
    return high === undefined ? Math.floor(low) + nth : low + ((high - low) * nth) / ((together.get(place) ?? 0) + 1);
  });
}
