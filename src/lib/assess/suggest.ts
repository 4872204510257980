import type { Audit } from '../audit';
import type { Case, SurgeonRecord } from '../model';
import { safetyFactsOf, suggestionOf } from '../rules';
import type { SafetyFacts, Suggestion } from '../rules/types';
import { monitoredOperations, monitorSignalled as signalledIn } from '../safety';

type Recorded = Pick<SurgeonRecord, 'cases' | 'lists' | 'profile'>;

/** Has the safety monitor signalled in the operations of one procedure, with no review since? */
export function monitorSignalled(record: Recorded, procedureId: string): boolean {
  const operations = monitoredOperations(ofProcedure(record.cases, procedureId), record.lists);
  return signalledIn(operations, record.profile.seriousRate);
}

/**
 * What the rules know of events. Safety looks at every case, those of a running window too: only times are held back
 * from view, never an event.
 */
export function safetyFactsFor(audit: Audit, record: Recorded): SafetyFacts {
  const { procedure } = audit;
  const cases = ofProcedure(record.cases, procedure.id);
  const on = new Set(cases.map(({ listId }) => listId));
  return safetyFactsOf(
    cases,
    record.lists.filter(({ id }) => on.has(id)),
    procedure,
    audit.steps.map(({ stepId }) => stepId),
    monitorSignalled(record, procedure.id),
  );
}

/** What the record suggests looking at. */
export function suggestionFor(audit: Audit, record: Recorded): Suggestion {
  return suggestionOf(audit, safetyFactsFor(audit, record));
}

const ofProcedure = (cases: readonly Case[], procedureId: string) =>
  cases.filter((each) => each.procedureId === procedureId);
