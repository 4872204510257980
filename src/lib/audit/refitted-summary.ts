import { quantileOfSorted } from '../statistics';
import type { StepFit } from './adjust-for-eye';
import { expanded, refitted } from './refit';
import type { Summary } from './sorted-sample';

/**
 * Like `summarise`, with the eye's coefficients redone in the resample. For short records only: it sorts.
 *
 * @param unit what each case of the table is drawn with; `counts` how often each was drawn.
 * @returns `false` when no drawn list holds the step.
 */
export function refittedSummary(fit: StepFit, unit: Int32Array, counts: Int32Array, into: Summary): boolean {
  const times = fit.present.map((place) => counts[unit[place]!]!);
  const coefficients = refitted(fit, times);
  // Reference times keep the factor of the full fit, so these do; seconds are put to the resample's own median after.
  const factor = Math.log(fit.factor);
  const logs = fit.log.map((value, i) => {
    let eyeEffect = 0;
    for (let j = 0; j < coefficients.length; j += 1) eyeEffect += coefficients[j]! * fit.design[j]![i]!;
    return value - eyeEffect + factor;
  });
  const drawn = expanded(logs, times);
  const n = drawn.length;
  if (n === 0) return false;
  const seconds = drawn.map(Math.exp);
  const middle = (values: Float64Array) => (values[(n - 1) >> 1]! + values[n >> 1]!) / 2;
  const centre = middle(drawn);
  into.median = middle(seconds);
  into.p20 = quantileOfSorted(seconds, 0.2);
  into.logMad = middle(drawn.map((value) => Math.abs(value - centre)).sort());
  return true;
}
