import type { Audit, StepAudit } from '../audit/types';
import { againstReference, type SuggestionReason } from './reasons';
import { shareOn, standingViews, type StandingView } from './standing';
import { rulesThresholds } from './thresholds';

/** Why a step is suggested on a view. `alone`: no other step stands out beside it there. */
export function reasonsOn(audit: Audit, step: StepAudit, view: StandingView, alone: boolean): SuggestionReason[] {
  const { stepId } = step;
  return [
    ...OF_VIEW[view](step, alone),
    {
      code: 'came-first',
      stepId,
      resampled: audit.listsFrom === 'blocks' ? 'cases' : 'lists',
      numbers: { share: shareOn(step, view) },
    },
    ...standingViews
      .filter((other) => other !== view && shareOn(step, other) >= rulesThresholds.level)
      .map((other): SuggestionReason => {
        return { code: 'came-first-elsewhere', stepId, view: other, numbers: { share: shareOn(step, other) } };
      }),
  ];
}

const OF_VIEW: Record<StandingView, (step: StepAudit, alone: boolean) => SuggestionReason[]> = {
  seconds: ({ stepId, difference, differenceSameEyes: same, differenceInterval: range }, alone) => [
    { code: 'seconds', stepId, alone, sameEyes: same !== null, numbers: { seconds: same ?? difference ?? 0, range } },
  ],
  spread: ({ stepId, twoThirds }, alone) => [{ code: 'spread', stepId, alone, numbers: { twoThirds } }],
  reference: ({ stepId, reference }) => {
    const numbers = againstReference(reference);
    return numbers ? [{ code: 'reference', stepId, numbers }] : [];
  },
};
