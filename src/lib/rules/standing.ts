import type { Audit, StepAudit } from '../audit/types';
import { rulesThresholds } from './thresholds';

export const standingViews = ['seconds', 'spread', 'reference'] as const;
export type StandingView = (typeof standingViews)[number];

/** What stands out on a view: one step, or two or three that cannot be told apart. */
export type Standing = { view: StandingView; steps: readonly StepAudit[] };

export const shareOn = (step: StepAudit, view: StandingView): number => step.first[view] ?? 0;

/**
 * What stands out on one view, `null` when nothing does. A step against the reference set must also take clearly longer
 * than it: coming first among steps that are all as short as the reference set's is no reason to look.
 */
export function standingOn(audit: Audit, view: StandingView): Standing | null {
  const ranked = audit.steps
    .filter((step) => step.first[view] !== null && (view !== 'reference' || (step.reference?.low ?? 0) > 1))
    .sort((a, b) => shareOn(b, view) - shareOn(a, view));
  const [top] = ranked;
  if (!top) return null;
  if (standsOut(audit, top, view)) return { view, steps: [top] };
  const level = ranked.filter((step) => shareOn(step, view) >= rulesThresholds.level);
  const together = level.reduce((sum, step) => sum + shareOn(step, view), 0);
  const needed = level.length === 2 ? rulesThresholds.levelTwo : rulesThresholds.levelThree;
  if (level.length < 2 || level.length > rulesThresholds.levelMost || together < needed) return null;
  return { view, steps: level };
}

/** Did a step come first on a view often enough to stand out by itself? */
export function standsOut(
  { caseIds, listCount }: Pick<Audit, 'caseIds' | 'listCount'>,
  step: StepAudit,
  view: StandingView,
): boolean {
  const { standsOut: enough, standsOutSmall, smallCases, smallLists } = rulesThresholds;
  // Where lists are not known, blocks of neighbours stand in for them and are no better than few lists.
  const small = caseIds.length < smallCases || (listCount ?? 0) < smallLists;
  return shareOn(step, view) >= (small ? standsOutSmall : enough);
}
