/**
 * The dip: how far the distribution of some values is from the nearest one with a single hump, as the largest
 * distance between the two distribution functions (Hartigan and Hartigan, Ann. Stat. 1985;13:70; computed as
 * Hartigan, Applied Statistics 1985;34:320: convex minorant and concave majorant around a shrinking modal interval).
 *
 * @param sorted rising; at least one.
 * @returns 1/(2n) for a single hump, up to 1/4 for two far ones.
 */
export function dip(sorted: Float64Array): number {
  const n = sorted.length;
  let low = 0;
  let high = n - 1;
  if (n < 4 || sorted[low] === sorted[high]) return 1 / (2 * n);
  const minorant = hull(sorted, 1);
  const majorant = hull(sorted, -1);
  // In counts of cases, doubled at the end: 1 is the least there can be.
  let found = 1;
  for (;;) {
    const convex = chain(minorant, high, low);
    const concave = chain(majorant, low, high);
    const { distance, fromConvex, fromConcave } = widest(sorted, convex, concave);
    if (distance < found) break;
    const left = largestGap(sorted, convex.slice(fromConvex).reverse(), 1);
    const right = largestGap(sorted, concave.slice(fromConcave), -1);
    found = Math.max(found, left, right);
    const [nextLow, nextHigh] = [convex[fromConvex]!, concave[fromConcave]!];
    if (nextLow === low && nextHigh === high) break;
    [low, high] = [nextLow, nextHigh];
  }
  return found / (2 * n);
}

/**
 * For each value the next corner on the way out: of the greatest convex minorant towards the smallest (side 1),
 * of the least concave majorant towards the largest (side −1).
 */
function hull(sorted: Float64Array, side: 1 | -1): Int32Array {
  const n = sorted.length;
  const next = new Int32Array(n);
  const end = side === 1 ? 0 : n - 1;
  next[end] = end;
  for (let step = 1; step < n; step += 1) {
    const at = end + side * step;
    next[at] = at - side;
    for (;;) {
      const one: number = next[at]!;
      const two: number = next[one]!;
      const turns = (sorted[at]! - sorted[one]!) * (one - two) < (sorted[one]! - sorted[two]!) * (at - one);
      if (one === end || turns) break;
      next[at] = two;
    }
  }
  return next;
}

function chain(next: Int32Array, from: number, to: number): number[] {
  const corners = [from];
  for (let at = from; at !== to && next[at] !== at;) {
    at = next[at]!;
    // Corners outside the modal interval belong to an earlier round.
    corners.push(from > to ? Math.max(at, to) : Math.min(at, to));
    if (from > to ? at <= to : at >= to) break;
  }
  return corners;
}

/** Where the two curves lie furthest apart, and from which corner of each that is. */
function widest(x: Float64Array, convex: readonly number[], concave: readonly number[]) {
  let [distance, fromConvex, fromConcave] = [0, convex.length - 1, concave.length - 1];
  let c = convex.length - 2;
  let v = 1;
  if (convex.length === 2 && concave.length === 2) return { distance: 1, fromConvex, fromConcave };
  for (;;) {
    const at = convex[c]!;
    const up = concave[v]!;
    if (at > up) {
      const before = convex[c + 1]!;
      const gap = up - before + 1 - ((x[up]! - x[before]!) * (at - before)) / (x[at]! - x[before]!);
      v += 1;
      if (gap >= distance) [distance, fromConvex, fromConcave] = [gap, c + 1, v - 1];
    } else {
      const before = concave[v - 1]!;
      const gap = ((x[at]! - x[before]!) * (up - before)) / (x[up]! - x[before]!) - (at - before - 1);
      c -= 1;
      if (gap >= distance) [distance, fromConvex, fromConcave] = [gap, c + 1, v];
    }
    c = Math.max(c, 0);
    v = Math.min(v, concave.length - 1);
    if (convex[c] === concave[v]) return { distance, fromConvex, fromConcave };
  }
}

/** Largest distance between the step function and the straight pieces through the corners, at least 1. */
function largestGap(x: Float64Array, corners: readonly number[], side: 1 | -1): number {
  let largest = 1;
  for (let k = 0; k + 1 < corners.length; k += 1) {
    const [from, to] = [corners[k]!, corners[k + 1]!];
    if (to - from <= 1 || x[to] === x[from]) continue;
    const slope = (to - from) / (x[to]! - x[from]!);
    for (let at = from; at <= to; at += 1) {
      const line = (x[at]! - x[from]!) * slope;
      largest = Math.max(largest, side === 1 ? at - from + 1 - line : line - (at - from - 1));
    }
  }
  return largest;
}
