import { requireNumbers, sorted, type Numbers } from './numbers';
import { quantileOfSorted } from './quantile';

/**
 * Interval from re-draws: the middle `level` of them (Efron 1979; Efron and Tibshirani 1993, ch. 13), ends by quantile
 * type 8. Plain percentiles, because the corrected kinds need a re-draw without each list in turn and gain little here.
 * @param replicates one value a re-draw, any unit; absent ones taken out by the caller
 * @throws on no replicates or a value that is not a number
 */
export function percentileInterval(replicates: Numbers, level = 0.95): { low: number; high: number } {
  requireNumbers('percentileInterval', replicates);
  const ordered = sorted(replicates);
  const tail = (1 - level) / 2;
  return { low: quantileOfSorted(ordered, tail), high: quantileOfSorted(ordered, 1 - tail) };
}
