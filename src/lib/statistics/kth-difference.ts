/** Counts, in one sweep, how many differences are ≤ a value, and finds the nearest ones on both sides of it. */
type Sweep = (at: number) => { count: number; below: number; above: number };

/**
 * The k-th smallest (from 1) of many differences without forming them: bisection on the value, snapped to a real
 * difference at each step, so that it ends on one and ties cost nothing. O(n) a step where all pairs would be O(n²).
 */
function bisect(sweep: Sweep, k: number, smallest: number, largest: number): number {
  let low = smallest;
  let high = largest;
  while (low < high) {
    let middle = low + (high - low) / 2;
    if (middle >= high) middle = low;
    const { count, below, above } = sweep(middle);
    if (k <= count) high = below;
    else low = above;
  }
  return low;
}

/**
 * The k-th smallest of all a_i − b_j.
 * @param a sorted, smallest first
 * @param b sorted, smallest first
 * @param k from 1 to a.length × b.length
 */
export function kthCrossDifference(a: Float64Array, b: Float64Array, k: number): number {
  const sweep: Sweep = (at) => {
    let count = 0;
    let below = -Infinity;
    let above = Infinity;
    // For growing a the b that still give a difference ≤ at start further right.
    let j = 0;
    for (let i = 0; i < a.length; i++) {
      const value = a[i]!;
      while (j < b.length && value - b[j]! > at) j++;
      count += b.length - j;
      if (j < b.length) below = Math.max(below, value - b[j]!);
      if (j > 0) above = Math.min(above, value - b[j - 1]!);
    }
    return { count, below, above };
  };
  return bisect(sweep, k, a[0]! - b[b.length - 1]!, a[a.length - 1]! - b[0]!);
}

/**
 * The k-th smallest of all x_j − x_i with i < j: the distances between pairs.
 * @param x sorted, smallest first, at least two values
 * @param k from 1 to n(n − 1)/2
 */
export function kthPairDistance(x: Float64Array, k: number): number {
  const n = x.length;
  const sweep: Sweep = (at) => {
    let count = 0;
    let below = -Infinity;
    let above = Infinity;
    let i = 0;
    for (let j = 1; j < n; j++) {
      const value = x[j]!;
      while (i < j && value - x[i]! > at) i++;
      count += j - i;
      if (i < j) below = Math.max(below, value - x[i]!);
      if (i > 0) above = Math.min(above, value - x[i - 1]!);
    }
    return { count, below, above };
  };
  let smallest = Infinity;
  for (let j = 1; j < n; j++) smallest = Math.min(smallest, x[j]! - x[j - 1]!);
  return bisect(sweep, k, smallest, x[n - 1]! - x[0]!);
}
