import { canBeWatched, countedCases, stepSecondsOf, type Pair } from '../../audit';
import type { Case, MentorReview, Procedure } from '../../model';

export type Stretches = Pick<MentorReview, 'caseIds' | 'chosen'>;

/** As many as two people can watch and talk about in one sitting. */
const MOST = 3;

/**
 * The stretches to watch with a mentor: the two cases of the pair and the latest counted case of the step beside them;
 * without a pair, the three latest. A case of a running window may be among them: its code tells no time.
 * In order of their codes, because any other order would tell the shorter from the longer. `null`: no case has the step, or each was noted by hand.
 */
export function stretchesToWatch(
  cases: readonly Case[],
  procedure: Procedure,
  stepId: string,
  pair: Pair,
): Stretches | null {
  const withStep = countedCases(cases, procedure).filter(
    (one) => stepSecondsOf(one, stepId) !== null && canBeWatched(one),
  );
  const two = pair.kind === 'pair' ? [pair.shorter.caseId, pair.longer.caseId] : [];
  const others = withStep.filter(({ id }) => !two.includes(id));
  const latest = others.slice(Math.max(0, others.length - (MOST - two.length))).map(({ id }) => id);
  const chosen = new Set([...two, ...latest]);
  const inOrder = cases
    .filter(({ id }) => chosen.has(id))
    .sort((a, b) => a.code.localeCompare(b.code, 'en', { numeric: true }));
  if (inOrder.length === 0) return null;
  return { caseIds: inOrder.map(({ id }) => id), chosen: two.length > 0 ? 'pair-and-latest' : 'latest' };
}
