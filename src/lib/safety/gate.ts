import type { Case, Event, GateReason, ListRecord, Procedure } from '../model';
import { downstreamOf } from './downstream';
import { isSerious, listsOf } from './event-tally';
import { protectedPartsFallen } from './protected-parts';
import { safetyThresholds } from './thresholds';

/**
 * `open`: a change in time may be called a result. Closed never hides a number.
 * `final`: a review cannot open it again for this result.
 */
export type Gate = { open: boolean; final: boolean; reasons: GateReason[] };

export type GateInput = {
  procedure: Procedure;
  stepId: string;
  /** Every case operated in the window's span, those left out included: an event is not left out with its case. */
  windowCases: readonly Case[];
  /** Baseline cases and the protected parts chosen to watch; without them protected parts are not compared. */
  startCases?: readonly Case[];
  protectedPartIds?: readonly string[];
  /** Their lists: serious events in operations that were not timed count too. */
  lists?: readonly ListRecord[];
  /** The monitor has signalled and no review followed. */
  monitorSignalled?: boolean;
};

type Found = { event: Event; timed: boolean };

/**
 * Whether a change in time may be called a result at all: not while a serious event of the window waits for its review,
 * not with two serious events tied to the practised step or one downstream, not after a signal of the monitor without a
 * review, and not when a protected part was seen in fewer cases than in the baseline cases.
 */
export function gate(input: GateInput): Gate {
  const { procedure } = input;
  const stepOf = (id: string | null) => procedure.steps.find((one) => one.id === id)?.label ?? null;
  const kindOf = (id: string) => procedure.eventKinds.find((one) => one.id === id)?.label ?? id;
  const serious = seriousOf(input.windowCases, input.lists ?? []);
  const tiedTo = new Set([input.stepId, ...downstreamOf(procedure, input.stepId)]);
  const tied = serious.filter(({ event }) => event.stepId !== null && tiedTo.has(event.stepId));
  const reasons: GateReason[] = serious
    .filter(({ event }) => !event.reviewed)
    .map(({ event, timed }) => ({ code: 'unreviewed', event: kindOf(event.kind), step: stepOf(event.stepId), timed }));
  const twoTied = tied.length >= safetyThresholds.seriousTiedClose;
  if (twoTied)
    reasons.push({
      code: 'two-serious',
      count: tied.length,
      steps: [...new Set(tied.flatMap(({ event }) => event.stepId ?? []))].map(stepOf),
    });
  if (input.monitorSignalled) reasons.push({ code: 'monitor' });
  const fallen = protectedPartsFallen(input.startCases ?? [], input.windowCases, input.protectedPartIds ?? []);
  reasons.push(
    ...fallen.map(({ protectedPartId: id, start, window }): GateReason => {
      const part = procedure.steps.flatMap((one) => one.protectedParts).find((each) => each.id === id);
      return { code: 'protected-part', part: part?.label ?? id, start, window };
    }),
  );
  return {
    open: reasons.length === 0,
    final: twoTied || fallen.length > 0,
    reasons,
  };
}

function seriousOf(cases: readonly Case[], lists: readonly ListRecord[]): Found[] {
  const timed = cases.flatMap((one) => (one.events ?? []).map((event) => ({ event, timed: true })));
  const untimed = listsOf(cases, lists).flatMap((list) => list.untimedEvents.map((event) => ({ event, timed: false })));
  return [...timed, ...untimed].filter(({ event }) => isSerious(event));
}
