import { requireNumbers, type Numbers } from './numbers';

/**
 * Arithmetic mean. Two passes: the second adds the mean of what the first left over, so that values of ten million
 * that differ in the last digit keep their digits (checked against NIST's certified sets).
 * @throws on an empty row or a value that is not a number
 */
export function mean(values: Numbers): number {
  requireNumbers('mean', values);
  const n = values.length;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i]!;
  const first = sum / n;
  let rest = 0;
  for (let i = 0; i < n; i++) rest += values[i]! - first;
  return first + rest / n;
}

/**
 * Sample standard deviation, divisor n − 1, from deviations about the mean (never the difference of two sums of squares).
 * @throws on fewer than two values
 */
export function sampleSd(values: Numbers): number {
  if (values.length < 2) throw new RangeError('sampleSd requires at least two data points');
  const centre = mean(values);
  let squares = 0;
  for (let i = 0; i < values.length; i++) squares += (values[i]! - centre) ** 2;
  return Math.sqrt(squares / (values.length - 1));
}
