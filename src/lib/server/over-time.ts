import { procedureOf, type Procedure, type SurgeonRecord } from '../model';
import { overTimeView, type OverTimeView } from '../rooms/over-time/over-time-view';
import { askedSplit } from '../rooms/over-time/split';
import { othersMeanwhile } from './in-turns';
import { keptAnswers, recordKey } from './kept-answers';

const views = keptAnswers<OverTimeView>(4);

/** What *Over time* shows at an address (`procedure`, `by` and the fields of the split). */
export async function readOverTime(
  record: SurgeonRecord,
  query: URLSearchParams,
): Promise<{ procedure: Procedure; named: boolean; room: OverTimeView }> {
  const procedure = procedureOf(record, query.get('procedure') ?? record.profile.procedureId);
  const asked = askedSplit(query);
  const room = await views(`${recordKey(record)} ${procedure.id} ${JSON.stringify(asked)}`, async () => {
    await othersMeanwhile.pause();
    return overTimeView(record, procedure, asked);
  });
  return { procedure, named: query.has('procedure'), room };
}
