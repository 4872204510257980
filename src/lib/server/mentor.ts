import { pairOf } from '../audit';
import { procedureOf, type Goal, type SurgeonRecord } from '../model';
import { stretchesToWatch, type Stretches } from '../rooms/mentor/stretches';
import { certainEyesOf } from '../rules';
import { shownAudit } from './audits';
import { othersMeanwhile } from './in-turns';

/** The stretches a review of this goal would take: the pair is the one that the page of its step shows. */
export async function stretchesOfGoal(record: SurgeonRecord, { procedureId, stepId }: Goal): Promise<Stretches | null> {
  const procedure = procedureOf(record, procedureId);
  const { audit, cases } = await shownAudit(record, procedure);
  await othersMeanwhile.pause();
  const within = certainEyesOf({ ...audit, patterns: audit.patterns.filter((each) => each.stepId === stepId) });
  const pair = pairOf({ cases, lists: record.lists, procedure, stepId, within });
  await othersMeanwhile.pause();
  return stretchesToWatch(record.cases, procedure, stepId, pair);
}
