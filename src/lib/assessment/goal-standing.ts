import type { GoalWindow, Look } from '../practice';
import type { Case, Goal, Procedure, Step, StoredResult } from '../model';
import { goalWindow, lookOf } from './goal-window';
import { procedureOf, type SurgeonRecord } from './record';

/** What is told of a goal without working anything out: its step, its window as it was read, its stored results. */
export type GoalStanding = {
  goal: Goal;
  procedure: Procedure;
  step: Step;
  look: Look;
  window: GoalWindow;
  /** Results of this goal as they were stored, first look first. */
  stored: readonly StoredResult[];
};

/** @param cases of the record, where something was merged into them */
export function goalStanding(record: SurgeonRecord, goal: Goal, cases: readonly Case[] = record.cases): GoalStanding {
  const procedure = procedureOf(record, goal.procedureId);
  return {
    goal,
    procedure,
    step: procedure.steps.find(({ id }) => id === goal.stepId) ?? retiredStep(goal.stepId),
    look: lookOf(goal),
    window: goalWindow(record, goal, cases),
    stored: record.results
      .filter((each) => each.goalId === goal.id)
      .sort((a, b) => Number(a.look === 'second') - Number(b.look === 'second')),
  };
}

/** A step taken out of the procedure since: its goal can still be read. */
const retiredStep = (id: string): Step => ({
  id,
  label: id,
  starts: 'not known',
  ends: 'not known',
  synonyms: [],
  earlier: [],
  optional: false,
  notToShorten: false,
  keptParts: [],
  retired: true,
});
