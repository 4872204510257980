import { hasEyes, pairOf } from '../audit';
import { procedureOf, type Case, type Goal, type SurgeonRecord } from '../model';
import { stretchesToWatch, type Stretches } from '../rooms/mentor/stretches';
import { pairEyesOf } from '../rules';
import { shownAudit } from './audits';
import { othersMeanwhile } from './in-turns';

/**
 * The stretches a review of this goal would take: the pair is the one that the page of its step shows; for a goal aimed
 * at certain eyes, pair and latest case are of these eyes.
 */
export async function stretchesOfGoal(record: SurgeonRecord, goal: Goal): Promise<Stretches | null> {
  const { procedureId, stepId, eyes } = goal;
  const procedure = procedureOf(record, procedureId);
  const { audit, cases } = await shownAudit(record, procedure);
  await othersMeanwhile.pause();
  const aimed = (all: readonly Case[]) => (eyes ? all.filter((one) => hasEyes(one, eyes)) : all);
  const within = eyes ? null : pairEyesOf(audit, stepId);
  const pair = pairOf({ cases: aimed(cases), lists: record.lists, procedure, stepId, within });
  await othersMeanwhile.pause();
  return stretchesToWatch(aimed(record.cases), procedure, stepId, pair);
}
