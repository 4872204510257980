import { chooseView, viewOf, type ChooseView } from '../rooms/choose/choose-view';
import { procedureOf, type SurgeonRecord, type Procedure } from '../model';
import { suggestionFor } from '../assess/suggest';
import type { Suggestion } from '../rules/types';
import { shownAudit } from './audits';
import { keptAnswers, recordKey } from './kept-answers';
import { readRecord } from './record';
import type { Store } from './storage/port';

// The safety monitor behind a suggestion takes longer than the rest of the page, and does not depend on the view.
const suggestions = keptAnswers<Suggestion>(2);

/** What Choose shows at an address (`procedure`, `view`); `room` null: no case counts yet. */
export async function readChoose(
  record: SurgeonRecord,
  asked: URLSearchParams,
): Promise<{ procedure: Procedure; room: ChooseView | null }> {
  const procedure = procedureOf(record, asked.get('procedure') ?? record.profile.procedureId);
  const { audit, heldBack } = await shownAudit(record, procedure);
  if (audit.cannot) return { procedure, room: null };
  const suggestion = await suggestions(`${recordKey(record)} ${procedure.id}`, async () =>
    suggestionFor(audit, record),
  );
  const view = viewOf(asked.get('view'), audit, suggestion);
  const named = asked.has('procedure') ? procedure.id : null;
  return { procedure, room: chooseView(audit, suggestion, view, { heldBack, procedure: named, cases: record.cases }) };
}

/**
 * What Choose will show of a record that has just changed, worked out in slices while others are answered, so that the
 * next visit finds it done. Nobody waits for it; what goes wrong here is met, and said, where it is asked for.
 */
export async function chooseAhead(store: Store, procedureId: string): Promise<void> {
  try {
    await readChoose(await readRecord(store), new URLSearchParams({ procedure: procedureId }));
  } catch {
    // The visit to Choose computes it again.
  }
}
