import type { Case, ListRecord, Procedure } from '../model';
import { inOrder } from './counted-cases';
import { listNumbers } from './list-numbers';
import { asChosen, stepsOf } from './merged-steps';
import { stepSecondsOf, waitingOf, timesReturnedTo } from './step-time';
import type { StepTable } from './types';

/**
 * Step times of some cases in order of time: one row a step in the order of the operation, one column a case.
 * Seconds; NaN where a step is absent. Where a procedure offers a merged step and its parts, the table holds one or the other.
 *
 * @param options.wanted steps that must stand in the table (a goal's step).
 */
export function stepTable(
  cases: readonly Case[],
  procedure: Procedure,
  lists: readonly ListRecord[],
  options: { wanted?: readonly string[] } = {},
): StepTable {
  const ordered = inOrder(cases);
  const choices = stepsOf(ordered, procedure, options.wanted);
  const returnsKnown = returnsKnownFrom(ordered);
  const rows = () => choices.map(() => new Float64Array(ordered.length).fill(NaN));
  const seconds = rows();
  const returnedTo = rows();
  const waiting = rows();
  ordered.forEach((case_, place) =>
    choices.forEach((choice, step) => {
      const read = asChosen(case_, choice);
      const time = stepSecondsOf(read, choice.stepId);
      if (time === null) return;
      set(seconds, step, place, time);
      set(waiting, step, place, waitingOf(read, choice.stepId));
      if (returnsKnown.has(sourceOf(case_))) set(returnedTo, step, place, timesReturnedTo(read, choice.stepId) ?? 0);
    }),
  );
  return {
    procedure,
    cases: ordered,
    stepIds: choices.map(({ stepId }) => stepId),
    seconds,
    returnedTo,
    waiting,
    ...listNumbers(ordered, lists),
    orderKnown: ordered.every(({ orderKnown }) => orderKnown),
  };
}

function set(rows: readonly Float64Array[], row: number, place: number, value: number) {
  const values = rows[row];
  if (values) values[place] = value;
}

const sourceOf = ({ source }: Case) => (source.kind === 'file' ? source.importId : source.kind);

/**
 * Sources that can show that a step was returned to. A sheet with one time per step says nothing about it, and not
 * recorded is not "none".
 */
function returnsKnownFrom(cases: readonly Case[]): ReadonlySet<string> {
  const known = new Set<string>();
  for (const case_ of cases) {
    const steps = case_.stretches.filter(({ kind }) => kind === 'step');
    const repeated = new Set(steps.map(({ stepId }) => stepId)).size < steps.length;
    if (repeated || steps.some(({ start }) => start !== null) || Object.keys(case_.returnsNoted).length > 0)
      known.add(sourceOf(case_));
  }
  return known;
}
