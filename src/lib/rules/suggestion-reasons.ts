import type { Audit, StepAudit } from '../audit/types';
import { inSentence } from '../format';
import { ofHundred, othersCases, shortRatio, shortSeconds } from './plain-numbers';
import { shareOn, type StandingView } from './standing';
import { rulesThresholds } from './thresholds';

/** Why a step is suggested on a view, in words with the numbers the words rest on. */
export function reasonsOn(audit: Audit, step: StepAudit, view: StandingView, alone: boolean): string[] {
  const came = `It came first in ${ofHundred(shareOn(step, view))} resamples of ${audit.listsFrom === 'blocks' ? 'your cases' : 'your lists'}.`;
  return [`${step.label} ${SAYS[view](step, alone)}.`, came, ...elsewhere(step, view)];
}

const SAYS = {
  seconds: ({ difference, differenceSameEyes: same, differenceInterval: interval }, alone) =>
    `has ${alone ? 'the most seconds between median and 20th percentile: ' : ''}${shortSeconds(same ?? difference ?? 0)} a case${alone ? '' : ' between median and 20th percentile'}${same === null ? '' : ', among the same kind of eye'}${interval ? ` (${shortSeconds(interval.low)} to ${shortSeconds(interval.high)})` : ''}`,
  spread: ({ twoThirds: range }, alone) =>
    `varies ${alone ? 'more than any other step of its length' : 'much'}${range ? `: two thirds of cases between ${shortSeconds(range.low)} and ${shortSeconds(range.high)}` : ''}`,
  reference: ({ reference }) =>
    reference
      ? `takes about ${shortRatio(reference.ratio)} times as long as in the reference set (${shortRatio(reference.low)} to ${shortRatio(reference.high)}; ${othersCases(reference)})`
      : 'differs most from the reference set',
} satisfies Record<StandingView, (step: StepAudit, alone: boolean) => string>;

const NAMES = { seconds: 'by seconds', spread: 'by spread', reference: 'against the reference set' } as const;

function elsewhere(step: StepAudit, view: StandingView): string[] {
  return (['seconds', 'spread', 'reference'] as const)
    .filter((other) => other !== view && shareOn(step, other) >= rulesThresholds.level)
    .map(
      (other) =>
        `${NAMES[other][0]?.toUpperCase()}${NAMES[other].slice(1)} ${inSentence(step.label)} came first in ${ofHundred(shareOn(step, other))}.`,
    );
}
