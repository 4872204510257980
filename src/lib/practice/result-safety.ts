import { hasEyes, inOrder } from '../audit';
import type { Case, GateReason } from '../model';
import { gate, monitoredOperations, monitorSignalled } from '../safety';
import type { ResultInput } from './result-input';
import { spanOfCases } from './span';

/** Why no change in time may be called a result; empty when it may. */
export function pausedBecause(input: ResultInput, baseline: readonly Case[]): GateReason[] {
  const windowCases = spanOfCases(input.cases, input.windowIds, input.procedure.id);
  const last = Math.max(...windowCases.map((one) => one.sequence));
  const upToNow = input.cases.filter((one) => one.procedureId === input.procedure.id && one.sequence <= last);
  return gate({
    procedure: input.procedure,
    stepId: input.stepId,
    windowCases,
    startCases: input.eyes ? timeOfCases(input.cases, input.baseline.caseIds, input.procedure.id) : baseline,
    protectedPartIds: input.watch,
    lists: input.lists,
    monitorSignalled: monitorSignalled(monitoredOperations(upToNow, input.lists), input.seriousRate),
  }).reasons;
}

/** For a goal aimed at certain eyes: every case of the time of the start, since safety is asked of all eyes. */
export const timeOfCases = (cases: readonly Case[], ids: readonly string[], procedureId: string): Case[] =>
  spanOfCases(cases, ids, procedureId).filter((one) => one.leftOut === null);

/** Cases of the start or of the window's span that were left out after their times had been seen. */
export function leftOutSeen(input: ResultInput): Case[] {
  const start = new Set(input.baseline.caseIds);
  const span = new Set(spanOfCases(input.cases, input.windowIds, input.procedure.id).map((one) => one.id));
  return input.cases.filter(
    (one) =>
      one.leftOut?.timesSeen && (start.has(one.id) || span.has(one.id)) && (!input.eyes || hasEyes(one, input.eyes)),
  );
}

/** Start and window with those cases in, each where it belongs. */
export function withLeftOut(
  input: ResultInput,
  baseline: readonly Case[],
  window: readonly Case[],
  seen: readonly Case[],
): [Case[], Case[]] {
  const start = new Set(input.baseline.caseIds);
  return [
    inOrder([...baseline, ...seen.filter((one) => start.has(one.id))]),
    inOrder([...window, ...seen.filter((one) => !start.has(one.id))]),
  ];
}
