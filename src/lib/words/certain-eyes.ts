import type { Audit } from '../audit';
import { counted, timesAsLong } from '../format';
import type { CertainEyes } from '../rules';

/** How much longer, in how many eyes; longer there is expected. */
export function eyesWords(eyes: CertainEyes, { twoToWatch }: Pick<Audit, 'twoToWatch'>): string {
  const { ratio, low, high } = timesAsLong(eyes);
  return `There it takes about ${ratio} times as long (${low} to ${high}; ${eyes.withIt.n} of ${counted(eyes.n, 'case')}). Longer is expected in these eyes; ${twoToWatch ? 'two recordings will show whether it should be this much longer' : 'times noted by hand cannot show whether it should be this much longer'}.`;
}

/** The same as worth a look beside another suggestion. */
export function eyesBeside(eyes: CertainEyes, label: (id: string) => string): string {
  const { ratio, low, high } = timesAsLong(eyes);
  return `${label(eyes.stepId)} in certain eyes (${eyes.label}), where it takes about ${ratio} times as long (${low} to ${high}; ${eyes.withIt.n} of ${counted(eyes.n, 'case')})`;
}
