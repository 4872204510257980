import { requireNumbers, type Numbers } from './numbers';

/**
 * Which of many tests stand when on average a share q of those named may be false (Benjamini and Hochberg,
 * J. R. Stat. Soc. B 1995;57:289, step-up; valid for independent and positively dependent tests).
 * @param p one p value a test, any order, 0..1
 * @returns in the order given: whether it stands, and the smallest q at which it would
 * @throws on a p that is not a number or outside 0..1; no tests give empty lists
 */
export function benjaminiHochberg(p: Numbers, q: number): { rejected: boolean[]; adjusted: number[] } {
  const n = p.length;
  if (n === 0) return { rejected: [], adjusted: [] };
  requireNumbers('benjaminiHochberg', p);
  for (let i = 0; i < n; i++)
    if (p[i]! < 0 || p[i]! > 1) throw new RangeError(`benjaminiHochberg requires p values from 0 to 1, not ${p[i]}`);
  const order = Array.from({ length: n }, (_, i) => i).sort((a, b) => p[b]! - p[a]!);
  const adjusted = new Array<number>(n).fill(1);
  let least = 1;
  order.forEach((test, fromTop) => {
    least = Math.min(least, (p[test]! * n) / (n - fromTop));
    adjusted[test] = least;
  });
  // Rounding must not decide at the edge: 0.0133… × 15 / 4 is 0.05 on paper.
  return { rejected: adjusted.map((value) => value <= q * (1 + 1e-12)), adjusted };
}
