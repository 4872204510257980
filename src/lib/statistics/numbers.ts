/** Any row of numbers: plain arrays, frozen arrays and typed arrays alike. Never changed by a function that takes it. */
export type Numbers = ArrayLike<number>;

/**
 * A wrong call is a mistake in the program, so it throws, with a message that names the function;
 * too little or unsuitable data is an answer and is returned by the functions themselves.
 * @throws when `values` is empty or holds something that is not a finite number (absent values must be taken out first)
 */
export function requireNumbers(who: string, values: Numbers): void {
  if (values.length === 0) throw new RangeError(`${who} requires at least one data point`);
  for (let i = 0; i < values.length; i++)
    if (!Number.isFinite(values[i])) throw new RangeError(`${who} requires finite numbers; value ${i} is ${values[i]}`);
}

/** @throws when two rows that belong together differ in length */
export function requireSameLength(who: string, a: Numbers, b: Numbers): void {
  if (a.length !== b.length)
    throw new RangeError(`${who} requires rows of one length, not ${a.length} and ${b.length}`);
}

/** A sorted copy, smallest first. */
export function sorted(values: Numbers): Float64Array {
  return Float64Array.from(values).sort();
}
