import type { Case, Event, ListRecord, Procedure } from '../model';
import { downstreamOf } from './downstream';
import { listsOf } from './event-tally';

/** Ids that stand for the same step: itself, its parts, and the merged step it is a part of. */
export function sameStepAs(stepId: string, { steps }: Procedure): ReadonlySet<string> {
  const parts = steps.find(({ id }) => id === stepId)?.mergeOf ?? [];
  const merged = steps.filter(({ mergeOf }) => mergeOf?.includes(stepId)).map(({ id }) => id);
  return new Set([stepId, ...parts, ...merged]);
}

const hasOwnTime = ({ hands, stretches }: Case, steps: ReadonlySet<string>): boolean =>
  stretches.some(
    ({ kind, stepId }) =>
      kind === 'step' && stepId !== null && steps.has(stepId) && (hands.steps[stepId] ?? hands.whole) === 'mine',
  );

/** `untimed`: in an operation of the same lists that was not timed, so that its place among the cases is not known. */
export type GoalEvent = { event: Event; where: 'baseline' | 'before-window' | 'window' | 'after-window' | 'untimed' };

export type EventsOfGoal = {
  procedure: Procedure;
  stepId: string;
  baselineIds: readonly string[];
  windowIds: readonly string[];
  cases: readonly Case[];
  lists: readonly ListRecord[];
};

/**
 * Events at the step of a goal, or at one it can make longer, from the first baseline case on; those tied to no step as
 * well, since they may belong there. Left-out cases are looked at too: an event is not left out with its case. So are the
 * cases just before the first that have no time of the step to be counted: the event may be why.
 */
export function eventsOfGoal({ procedure, stepId, baselineIds, windowIds, cases, lists }: EventsOfGoal): GoalEvent[] {
  const spanOf = (ids: readonly string[]) => {
    const wanted = new Set(ids);
    const places = cases.filter(({ id }) => wanted.has(id)).map(({ sequence }) => sequence);
    return { first: Math.min(...places), last: Math.max(...places) };
  };
  const [baseline, window] = [spanOf(baselineIds), spanOf(windowIds)];
  const same = sameStepAs(stepId, procedure);
  const first = Math.min(baseline.first, window.first);
  const own = cases.filter((one) => one.procedureId === procedure.id).sort((a, b) => a.sequence - b.sequence);
  const before = own.findLastIndex((one) => one.sequence < first && one.leftOut === null && hasOwnTime(one, same));
  const since = first === Infinity ? [] : own.slice(before + 1);
  const tiedTo = new Set([...same, ...downstreamOf(procedure, stepId)]);
  const tied = (event: Event) => event.stepId === null || tiedTo.has(event.stepId);
  const whereIs = ({ sequence }: Case): GoalEvent['where'] => {
    if (sequence <= baseline.last) return 'baseline';
    if (sequence < window.first) return 'before-window';
    return sequence <= window.last ? 'window' : 'after-window';
  };
  return [
    ...since.flatMap((one) => (one.events ?? []).filter(tied).map((event) => ({ event, where: whereIs(one) }))),
    ...listsOf(since, lists).flatMap((list) =>
      list.untimedEvents.filter(tied).map((event) => ({ event, where: 'untimed' as const })),
    ),
  ];
}
