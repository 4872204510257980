/**
 * The k-th smallest (from 0) of the first `length` values, which are reordered in place: everything before position k
 * is then no larger, everything after no smaller. Linear time on average (Hoare 1961, three-way middle as pivot);
 * sorting would dominate the robust fits, which need a median in every step.
 */
export function selectInPlace(values: Float64Array, k: number, length = values.length): number {
  let left = 0;
  let right = length - 1;
  while (left < right) {
    const middle = (left + right) >> 1;
    const a = values[left]!;
    const b = values[middle]!;
    const c = values[right]!;
    const pivot = a < b ? (b < c ? b : a < c ? c : a) : a < c ? a : b < c ? c : b;
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i <= j) {
        const held = values[i]!;
        values[i] = values[j]!;
        values[j] = held;
        i++;
        j--;
      }
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  return values[k]!;
}

/** Median of the first `length` values, which are reordered in place. No checks: for hot loops over checked data. */
export function medianInPlace(values: Float64Array, length = values.length): number {
  const half = length >> 1;
  const upper = selectInPlace(values, half, length);
  if (length % 2 === 1) return upper;
  let lower = values[0]!;
  for (let i = 1; i < half; i++) if (values[i]! > lower) lower = values[i]!;
  return (lower + upper) / 2;
}
