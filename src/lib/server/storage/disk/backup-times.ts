/** Moments are milliseconds since 1970, as `Date.now` gives them; days and months are counted in UTC, so that no journey moves them. */
const A_DAY = 24 * 60 * 60 * 1000;

/** So many of the newest are kept, for so many days; older ones thin out. Set with the storage design. */
export const LATEST = 20;
export const DAYS = 30;

const dayOf = (at: number) => Math.floor(at / A_DAY);
const monthOf = (at: number) => new Date(at).getUTCFullYear() * 12 + new Date(at).getUTCMonth();

/** Whole days and months alone: of one cut in two, a file could have lost the first and kept the second. */
const daysFrom = (now: number) => Math.ceil((now - DAYS * A_DAY) / A_DAY) * A_DAY;
const monthsFrom = (now: number, months: number) => {
  const date = new Date(now);
  return Date.UTC(date.getUTCFullYear(), date.getUTCMonth() - months + 1);
};

/** The earliest of each day, or month: it is the file as it stood when that day or month began. */
const firstOfEach = (ascending: readonly number[], spanOf: (at: number) => number): number[] =>
  ascending.filter((at, index) => index === 0 || spanOf(at) !== spanOf(ascending[index - 1] ?? at));

/**
 * Which backups of one file stay: the newest twenty and the first of each day for thirty days, the first of each month for
 * `months`, this one included. The first, not the last: what was replaced first on a day stood when the day began, in every file alike, so that
 * a whole record can be put together from files of which each was thinned out by itself.
 * @param ascending moments at which the file was replaced, earliest first
 */
export function keptOf(ascending: readonly number[], now: number, months: number): ReadonlySet<number> {
  const recent = daysFrom(now);
  const oldest = monthsFrom(now, months);
  return new Set([
    ...ascending.slice(-LATEST).filter((at) => at >= recent),
    ...firstOfEach(ascending, dayOf).filter((at) => at >= recent),
    ...firstOfEach(ascending, monthOf).filter((at) => at >= oldest),
  ]);
}

/**
 * The moments just before which the whole record is known from the backups that stay: the first change of each day and
 * month, and every change since the file that changes most often began its newest twenty.
 * @param files moments of each file, earliest first
 * @returns newest first
 */
export function wholeMoments(files: readonly (readonly number[])[], now: number, months: number): number[] {
  const all = [...new Set(files.flat())].sort((a, b) => a - b);
  const recent = daysFrom(now);
  const full = files.filter(({ length }) => length >= LATEST).map((ascending) => ascending.at(-LATEST) ?? 0);
  const since = full.reduce((latest, at) => Math.max(latest, at), recent);
  const oldest = monthsFrom(now, months);
  const moments = new Set([
    ...all.filter((at) => at >= since),
    ...firstOfEach(all, dayOf).filter((at) => at >= recent),
    ...firstOfEach(all, monthOf).filter((at) => at >= oldest),
  ]);
  return [...moments].sort((a, b) => b - a);
}
