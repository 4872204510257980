import { alsoNamed, waitingOf } from '../audit';
import type { Audit } from '../audit/types';
import type { Case, ListRecord, Step } from '../model';
import { protectedPartShares } from '../safety';
import { rulesThresholds } from './thresholds';
import { weeksBeforeLatest } from './pauses';
import type { SafetyFacts, StepFacts } from './types';

/**
 * Gathers what the rules look at for one step.
 *
 * @param cases of the record; those shown in the audit are looked at.
 * @param lists of the record: how long before the latest one the last one was.
 * @param pair codes of the shorter and the longer case, where there is such a pair.
 * @returns `null` where the audit has no such step.
 */
export function stepFactsOf(
  audit: Audit,
  cases: readonly Case[],
  stepId: string,
  safety: SafetyFacts,
  lists: readonly ListRecord[] = [],
  pair: StepFacts['pair'] = null,
): StepFacts | null {
  const found = audit.steps.find((each) => each.stepId === stepId);
  const step = audit.procedure.steps.find(({ id }) => id === stepId);
  if (!found || !step) return null;
  const shown = new Set(audit.caseIds);
  const looked = cases.filter(({ id }) => shown.has(id));
  const shares = protectedPartShares(
    looked,
    step.protectedParts.map(({ id }) => id),
  );
  const names = alsoNamed(stepId, { procedure: audit.procedure, stepIds: audit.steps.map((each) => each.stepId) });
  const nothing = { stepId, seriousUnreviewed: 0, seriousLast100: 0, casesSinceLatest: null, kinds: [] };
  return {
    step: found,
    cases: audit.caseIds.length,
    patterns: audit.patterns.filter((pattern) => pattern.stepId === stepId && pattern.shown),
    protectedParts: step.protectedParts.map(({ id, label }, place) => ({
      id,
      label,
      seen: shares[place]?.seen ?? 0,
      looked: shares[place]?.looked ?? 0,
    })),
    safety: safety.steps.find((each) => each.stepId === stepId) ?? nothing,
    ...shorterFifth(found, looked, step),
    takenOver: looked.filter(({ hands }) => (hands.steps[stepId] ?? hands.whole) === 'taken-over').length,
    renewed: renewedBefore(audit, step),
    breakWeeks: weeksBeforeLatest(lists),
    waitingCases: looked.filter((case_) => names.some((id) => waitingOf(case_, id) > 0)).length,
    twoToWatch: audit.twoToWatch,
    pair,
  };
}

function renewedBefore({ steps }: Audit, { earlier }: Step): StepFacts['renewed'] {
  const [most] = steps
    .filter(({ stepId }) => earlier.includes(stepId))
    .map(({ stepId, returnedTo }) => ({ stepId, ...(returnedTo ?? { cases: 0, of: 0, perCase: 0 }) }))
    .filter(({ perCase }) => perCase >= rulesThresholds.returnsOften)
    .sort((a, b) => b.perCase - a.perCase);
  return most ?? null;
}

/** Not recorded is not "none": the fifth is clean only where events were answered and protected parts looked for. */
function shorterFifth(
  { dots, p20 }: Pick<Audit['steps'][number], 'dots' | 'p20'>,
  cases: readonly Case[],
  { protectedParts }: Step,
): Pick<StepFacts, 'shorterFifthClean' | 'shorterFifthMissed'> {
  if (p20 === null) return { shorterFifthClean: null, shorterFifthMissed: [] };
  const short = new Set(dots.filter(({ seconds }) => seconds <= p20).map(({ caseId }) => caseId));
  const fifth = cases.filter(({ id }) => short.has(id));
  const shorterFifthMissed = fifth
    .map(({ code, events, protectedSeen }) => ({
      code,
      event: (events?.length ?? 0) > 0,
      notSeen: protectedParts.filter(({ id }) => protectedSeen[id] === false).map(({ label }) => label),
    }))
    .filter(({ event, notSeen }) => event || notSeen.length > 0);
  if (shorterFifthMissed.length > 0) return { shorterFifthClean: false, shorterFifthMissed };
  const known = fifth.filter(
    ({ events, protectedSeen }) => events !== null && protectedParts.every(({ id }) => protectedSeen[id] !== undefined),
  );
  return { shorterFifthClean: known.length >= rulesThresholds.shorterFifthKnown ? true : null, shorterFifthMissed };
}
