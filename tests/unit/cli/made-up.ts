import { randomStream } from '../../../src/lib/statistics';
import { STEP_SECONDS } from './run-in';

type Wanted = { surgeon?: string; from?: number; count: number; factor?: number; list?: (index: number) => string };

/** Made-up cases of one surgeon, one row a stretch, codes A1, A2 …; lists of five. */
export function madeUp({
  surgeon = 'A',
  from = 0,
  count,
  factor = 1,
  list = (at) => `${surgeon}-${Math.floor(at / 5)}`,
}: Wanted): string[] {
  return Array.from({ length: count }, (_, at) => from + at).flatMap((index) => {
    const stream = randomStream(11, surgeon.charCodeAt(0), index);
    return Object.entries(STEP_SECONDS).map(
      ([step, usual]) =>
        `${surgeon},${surgeon}${index + 1},${list(index)},${step},${(usual * factor * Math.exp(0.2 * stream.normal())).toFixed(1)}`,
    );
  });
}

export const HEAD = 'surgeon,case_id,list,step,seconds';
