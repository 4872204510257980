import {
  type Case,
  type Goal,
  type Procedure,
  type Step,
  type StoredResult,
  type SurgeonRecord,
  procedureOf,
} from '../../model';
import { aimedLabel } from '../../format';
import type { GoalWindow, Look } from '../../practice';
import { goalWindow, lookOf, type Recorded } from './goal-window';
import { hiddenTimes, owesReview } from './hidden-times';

/** What is told of a goal without working anything out: its step, its window as it was read, its stored results. */
export type GoalStanding = {
  goal: Goal;
  procedure: Procedure;
  step: Step;
  look: Look;
  window: GoalWindow;
  /** Results of this goal as they were stored, first look first. */
  stored: readonly StoredResult[];
  following: Following;
};

/** The windows that may be looked at, and why the next of them may not. */
export type Following = {
  inSight: readonly (readonly string[])[];
  waits: { kind: 'review' } | { kind: 'hidden'; cases: number } | null;
};

/** @param cases of the record, where something was merged into them */
export function goalStanding(record: SurgeonRecord, goal: Goal, cases: readonly Case[] = record.cases): GoalStanding {
  const window = goalWindow(record, goal, cases);
  const stored = record.results
    .filter((each) => each.goalId === goal.id)
    .sort((a, b) => Number(a.look === 'second') - Number(b.look === 'second'));
  const procedure = procedureOf(record, goal.procedureId);
  const step = procedure.steps.find(({ id }) => id === goal.stepId) ?? retiredStep(goal.stepId);
  return {
    goal,
    procedure,
    // In every sentence about the goal its step is named with the eyes it is aimed at.
    step: { ...step, label: aimedLabel(step.label, goal.eyes) },
    look: lookOf(goal),
    window,
    stored,
    following: followingOf(record, goal, window, stored.at(-1)?.lasted?.length ?? 0),
  };
}

/**
 * A following twenty comes into sight when no other goal hides times of its cases and no serious event of it waits for its
 * review; what was read stays.
 */
function followingOf(record: Recorded, goal: Goal, { windows }: GoalWindow, read: number): Following {
  if (windows.length <= read + 1) return { inSight: windows, waits: null };
  const hidden = new Set(hiddenTimes(record).flatMap(({ goalId, caseIds }) => (goalId === goal.id ? [] : caseIds)));
  const unread = windows.slice(read + 1);
  const hiddenIn = (ids: readonly string[]) => ids.filter((id) => hidden.has(id)).length;
  const stop = unread.findIndex((ids) => hiddenIn(ids) > 0 || owesReview(record, ids));
  if (stop === -1) return { inSight: windows, waits: null };
  const cases = hiddenIn(unread[stop] ?? []);
  return {
    inSight: windows.slice(0, read + 1 + stop),
    waits: cases > 0 ? { kind: 'hidden', cases } : { kind: 'review' },
  };
}

/**
 * Following twenties that are complete and were not read: as many answers wait as there are. Only after *shorter* is
 * there anything that can have lasted.
 */
export function lastingToRead({ stored, following }: Pick<GoalStanding, 'stored' | 'following'>): number {
  const latest = stored.at(-1);
  if (latest?.outcome.kind !== 'shorter') return 0;
  return Math.max(0, following.inSight.length - 1 - (latest.lasted?.length ?? 0));
}

/** What the answer of a complete following twenty waits for. */
export const lastingWaits = ({ stored, following }: Pick<GoalStanding, 'stored' | 'following'>): Following['waits'] =>
  stored.at(-1)?.outcome.kind === 'shorter' ? following.waits : null;

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
  protectedParts: [],
  retired: true,
});

/** Where a goal stands in its month. */
export type GoalStage = 'paused' | 'draft' | 'window' | 'full' | 'deciding' | 'following';

export type StagedGoal = GoalStanding & { stage: GoalStage };

/**
 * The stage of a goal that is not closed; `null` for one that is. A result counts as decided once something other than
 * a pause was decided; a decision to look again at forty opens the window once more. What came first is told by the
 * order in which it was written down, never by the clock: a clock can be set back.
 */
export function stagedGoal(goal: Goal, record: SurgeonRecord): StagedGoal | null {
  if (goal.state === 'closed') return null;
  const standing = goalStanding(record, goal);
  const result = standing.stored.find(({ look }) => look === standing.look) ?? null;
  return { ...standing, stage: stageOf(goal, standing.window, result) };
}

function stageOf(goal: Goal, window: GoalWindow, result: StoredResult | null): GoalStage {
  if (goal.state === 'paused') return 'paused';
  if (goal.state === 'draft') return 'draft';
  if (result) {
    // Nothing but a pause can be decided before a result is there, so what was decided on this look is what follows its start.
    const since = goal.decisions.slice(goal.decisions.findLastIndex(({ kind }) => kind === 'second-look') + 1);
    return since.some(({ kind }) => !['pause', 'resume'].includes(kind)) ? 'following' : 'deciding';
  }
  return window.full ? 'full' : 'window';
}

/** What is most pressing first: a pause, a result to read, a decision, a plan, a window, a following twenty. */
const URGENCY: readonly GoalStage[] = ['paused', 'full', 'deciding', 'draft', 'window', 'following'];

/** The goals that are not closed, the most pressing first; among equals the one set last. */
export function openGoals(record: SurgeonRecord): StagedGoal[] {
  return record.goals
    .flatMap((goal) => stagedGoal(goal, record) ?? [])
    .reverse()
    .sort((a, b) => URGENCY.indexOf(a.stage) - URGENCY.indexOf(b.stage));
}
