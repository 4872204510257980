import type { Case, Event, ListRecord, Procedure } from '../model';
import { downstreamOf } from './downstream';
import { isSerious, listsOf } from './event-tally';
import { protectedPartsFallen, type ProtectedPartFall } from './protected-parts';
import { safetyThresholds } from './thresholds';

export type GateReason =
  | { code: 'unreviewed'; kind: string; stepId: string | null; caseId: string | null }
  | { code: 'two-serious'; count: number; stepIds: string[] }
  | { code: 'monitor' }
  | ({ code: 'protected-part' } & ProtectedPartFall);

/**
 * `open`: a change in time may be called a result. Closed never hides a number.
 * `final`: a review cannot open it again for this result.
 */
export type Gate = { open: boolean; final: boolean; reasons: GateReason[]; because: string[] };

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

type Found = { event: Event; caseId: string | null };

/**
 * Whether a change in time may be called a result at all: not while a serious event of the window waits for its review,
 * not with two serious events tied to the practised step or one downstream, not after a signal of the monitor without a
 * review, and not when a protected part was seen in fewer cases than in the baseline cases.
 */
export function gate(input: GateInput): Gate {
  const serious = seriousOf(input.windowCases, input.lists ?? []);
  const tiedTo = new Set([input.stepId, ...downstreamOf(input.procedure, input.stepId)]);
  const tied = serious.filter(({ event }) => event.stepId !== null && tiedTo.has(event.stepId));
  const reasons: GateReason[] = serious
    .filter(({ event }) => !event.reviewed)
    .map(({ event, caseId }) => ({ code: 'unreviewed', kind: event.kind, stepId: event.stepId, caseId }));
  const twoTied = tied.length >= safetyThresholds.seriousTiedClose;
  if (twoTied)
    reasons.push({
      code: 'two-serious',
      count: tied.length,
      stepIds: [...new Set(tied.flatMap(({ event }) => event.stepId ?? []))],
    });
  if (input.monitorSignalled) reasons.push({ code: 'monitor' });
  const fallen = protectedPartsFallen(input.startCases ?? [], input.windowCases, input.protectedPartIds ?? []);
  reasons.push(...fallen.map((fall): GateReason => ({ code: 'protected-part', ...fall })));
  return {
    open: reasons.length === 0,
    final: twoTied || fallen.length > 0,
    reasons,
    because: reasons.map((reason) => sentence(reason, input.procedure)),
  };
}

function seriousOf(cases: readonly Case[], lists: readonly ListRecord[]): Found[] {
  const timed = cases.flatMap((one) => (one.events ?? []).map((event) => ({ event, caseId: one.id })));
  const untimed = listsOf(cases, lists).flatMap((list) => list.untimedEvents.map((event) => ({ event, caseId: null })));
  return [...timed, ...untimed].filter(({ event }) => isSerious(event));
}

function sentence(reason: GateReason, procedure: Procedure): string {
  const step = (id: string | null) => procedure.steps.find((one) => one.id === id)?.label ?? 'step not known';
  switch (reason.code) {
    case 'unreviewed': {
      const kind = procedure.eventKinds.find((one) => one.id === reason.kind)?.label ?? reason.kind;
      const where = reason.caseId === null ? ', in an operation that was not timed' : '';
      return `A serious event in these cases has not been reviewed yet (${kind}, ${step(reason.stepId)}${where}).`;
    }
    case 'two-serious':
      return `${reason.count} serious events in these cases are tied to this step or one after it (${reason.stepIds.map(step).join(', ')}).`;
    case 'monitor':
      return 'Serious events are more frequent than the line set beforehand, and no review has followed yet.';
    case 'protected-part': {
      const label =
        procedure.steps.flatMap((one) => one.protectedParts).find((part) => part.id === reason.protectedPartId)
          ?.label ?? reason.protectedPartId;
      const { start, window } = reason;
      return `The ${lowerFirst(label)} was seen in ${window.seen} of ${window.looked} cases; before, in ${start.seen} of ${start.looked}.`;
    }
  }
}

/** Leaves abbreviations ("OVD behind the lens") as they are. */
const lowerFirst = (label: string) => (/^[A-Z][a-z]/.test(label) ? label[0]?.toLowerCase() + label.slice(1) : label);
