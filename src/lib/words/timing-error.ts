import type { TimingError } from '../audit/timing-error';
import { counted } from '../format';

/** Above this part of a step's spread the timing itself is said to be part of it. */
const MUCH = 1 / 3;

const tenths = (seconds: number): string => `${Math.abs(seconds).toFixed(1)} s`;
const signed = (seconds: number): string =>
  Math.abs(seconds) < 0.05 ? 'as long' : `${tenths(seconds)} ${seconds < 0 ? 'shorter' : 'longer'}`;

/**
 * Own timing error at a step beside its spread.
 * @param spread of the step, as a factor; `null` where none is given
 */
export function timingErrorWords({ n, difference, from, to, error }: TimingError, spread: number | null): string[] {
  const one = `You timed ${counted(n, 'case')} twice, the first marks hidden: the second time was ${n === 1 ? '' : 'in the median '}${signed(difference)}${n === 1 ? '' : ` (from ${signed(from)} to ${signed(to)})`}.`;
  if (error === null) return [`${one} From fewer than three nothing is said about the spread of your timing.`];
  const percent = Math.max(0.1, 100 * (Math.exp(error) - 1)).toFixed(1);
  const beside = `One timing of yours is uncertain by about ${percent} % (one standard deviation)`;
  if (spread === null || spread <= 1) return [one, `${beside}.`];
  const ofSpread = error / Math.log(spread);
  const steps = `the times of this step differ by about ${(100 * (spread - 1)).toFixed(0)} %`;
  return [
    one,
    ofSpread > MUCH
      ? `${beside}; ${steps}. That is more than a third of it: agree with yourself where the clock of this step starts and stops before you read anything into its spread.`
      : `${beside}; ${steps}, so little of it comes from your timing.`,
  ];
}
