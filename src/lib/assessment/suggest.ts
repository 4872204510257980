import type { Audit } from '../audit';
import type { Case } from '../model';
import { safetyFactsOf, suggestionOf } from '../rules';
import type { Suggestion } from '../rules/types';
import { monitor, monitoredOperations } from '../safety';
import type { SurgeonRecord } from './record';

/** Has the safety monitor signalled in the operations of one procedure, with no review since? */
export function monitorSignalled(
  record: Pick<SurgeonRecord, 'cases' | 'lists' | 'profile'>,
  procedureId: string,
): boolean {
  const state = monitor(
    monitoredOperations(ofProcedure(record.cases, procedureId), record.lists),
    record.profile.seriousRate,
  );
  return state.kind === 'run' && state.signalled;
}

/**
 * What the record suggests. Safety looks at every case, those of a running window too: only times are held back from
 * view, never an event.
 */
export function suggestionFor(audit: Audit, record: Pick<SurgeonRecord, 'cases' | 'lists' | 'profile'>): Suggestion {
  const { procedure } = audit;
  const cases = ofProcedure(record.cases, procedure.id);
  const on = new Set(cases.map(({ listId }) => listId));
  const facts = safetyFactsOf(
    cases,
    record.lists.filter(({ id }) => on.has(id)),
    procedure,
    audit.steps.map(({ stepId }) => stepId),
    monitorSignalled(record, procedure.id),
  );
  return suggestionOf(audit, facts);
}

const ofProcedure = (cases: readonly Case[], procedureId: string) =>
  cases.filter((each) => each.procedureId === procedureId);
