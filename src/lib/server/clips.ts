import { hiddenCaseIds } from '../rooms/goals/hidden-times';
import { casesWithPlaces, type ClipList } from '../rooms/choose/clip-list';
import { procedureOf, type SurgeonRecord } from '../model';

/**
 * A list of clips at an address: `case` (ids, repeated; all that are offered where none is named) and `look`, the
 * checkpoint to look at. `null`: the procedure has no such step. Nothing of a running window, as on every page.
 */
export function clipList(record: SurgeonRecord, stepId: string, query: URLSearchParams): ClipList | null {
  const procedure = procedureOf(record, query.get('procedure') ?? record.profile.procedureId);
  const step = procedure.steps.find(({ id }) => id === stepId);
  if (!step) return null;
  const hidden = hiddenCaseIds(record);
  const offered = casesWithPlaces(
    record.cases.filter(({ id, procedureId }) => procedureId === procedure.id && !hidden.has(id)),
    step.id,
  );
  const named = query.getAll('case');
  const chosen = named.length === 0 ? offered : offered.filter(({ id }) => named.includes(id));
  return { procedure, step, offered, chosen, checkpoint: (query.get('look') ?? '').slice(0, 200) };
}
