import { adjustForEye } from '../audit';
import { referenceSamples } from '../audit/reference-samples';
import type { ReferenceSet } from '../model';
import { median } from '../statistics';
import type { CaseArrays } from './case-arrays';

/**
 * Median seconds of each step of the table in the reference sets, adjusted as the reference view adjusts them;
 * NaN where too few reference cases have the step. Held fixed in the resamples: the luck of having picked a step
 * against the reference lies in the surgeon's own cases.
 */
export function referenceMedians(
  references: readonly ReferenceSet[],
  { table, eye }: Pick<CaseArrays, 'table' | 'eye'>,
): Float64Array {
  const samples = referenceSamples(references, table, adjustForEye(table, eye));
  return Float64Array.from(table.stepIds, (_, step) => {
    const seconds = samples?.steps[step]?.times.seconds;
    return seconds && seconds.length > 0 ? median(seconds) : NaN;
  });
}
