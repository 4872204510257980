import { type Event, type Procedure, procedureOf, type SurgeonRecord } from '../../model';
import { waitsForReview } from '../cases/case-view';
import { listTitle } from '../forms/when-words';

/** A serious event without a written review: where it stands, and where it can be reviewed. */
export type WaitingEvent = { kind: string; stepLabel: string | null; procedure: Procedure; of: string; href: string };

/** Serious events that wait for review, the latest case first; those of operations not timed after them. */
export function waitingEvents(record: SurgeonRecord): WaitingEvent[] {
  const told = (event: Event, procedure: Procedure, of: string, href: string): WaitingEvent => ({
    kind: event.kind,
    stepLabel: procedure.steps.find(({ id }) => id === event.stepId)?.label ?? null,
    procedure,
    of,
    href,
  });
  const inCases = [...record.cases]
    .reverse()
    .flatMap((one) =>
      (one.events ?? [])
        .filter(waitsForReview)
        .map((event) =>
          told(event, procedureOf(record, one.procedureId), `case ${one.code}`, `/cases/${one.id}#events`),
        ),
    );
  const untimed = [...record.lists]
    .reverse()
    .flatMap((list) =>
      list.untimedEvents
        .filter(waitsForReview)
        .map((event) =>
          told(
            event,
            procedureOf(record, record.profile.procedureId),
            `an operation not timed, ${listTitle(list)}`,
            `/cases/lists/${list.id}#untimed`,
          ),
        ),
    );
  return [...inCases, ...untimed];
}
