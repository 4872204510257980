import { stepTable, type StepTable } from '../audit';
import type { Case, ListRecord, Procedure } from '../model';
import { practiceThresholds as set } from './thresholds';

/**
 * The cases that count for a goal on a step, in order of time: of the procedure, not left out, the step done by own
 * hands, with at least three other own steps. Where fewer other steps are timed at all (in at least half of the cases
 * with the step) that many are enough: the step alone can then be shown, and nothing is claimed against the rest.
 * @param record the whole record, where `cases` is a part of it: what is usual is read from the whole
 */
export function countedForGoal(
  cases: readonly Case[],
  procedure: Procedure,
  stepId: string,
  lists: readonly ListRecord[] = [],
  record: readonly Case[] = cases,
): Case[] {
  const { table, step, others, withStep } = timedSteps(cases, procedure, stepId, lists);
  const needed = othersNeeded(
    record === cases ? { table, step, others, withStep } : timedSteps(record, procedure, stepId, lists),
  );
  return withStep
    .filter((at) => others.filter((other) => timed(table, other, at)).length >= needed)
    .flatMap((at) => table.cases[at] ?? []);
}

type TimedSteps = { table: StepTable; step: number; others: number[]; withStep: number[] };

function timedSteps(
  cases: readonly Case[],
  procedure: Procedure,
  stepId: string,
  lists: readonly ListRecord[],
): TimedSteps {
  const own = cases.filter((one) => one.procedureId === procedure.id && one.leftOut === null);
  const table = stepTable(own, procedure, lists, { wanted: [stepId] });
  const step = table.stepIds.indexOf(stepId);
  return {
    table,
    step,
    others: [...table.stepIds.keys()].filter((other) => other !== step),
    withStep: [...table.cases.keys()].filter((at) => timed(table, step, at)),
  };
}

function othersNeeded({ table, others, withStep }: TimedSteps): number {
  const usual = others.filter(
    (other) => 2 * withStep.filter((at) => timed(table, other, at)).length >= withStep.length,
  );
  return Math.min(set.otherSteps, usual.length);
}

const timed = (table: StepTable, step: number, at: number) => Number.isFinite(table.seconds[step]?.[at] ?? NaN);
