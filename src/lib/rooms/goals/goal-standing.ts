import {
  type Case,
  type Goal,
  type Procedure,
  type Reflection,
  type Step,
  type StoredResult,
  type SurgeonRecord,
  procedureOf,
} from '../../model';
import { aimedLabel } from '../../format';
import { isSerious, listsOf } from '../../safety';
import { windowOf, type GoalWindow, type Look } from '../../practice';

/** What a window is counted from. */
export type Windowed = Pick<SurgeonRecord, 'goals' | 'cases' | 'lists' | 'procedures' | 'profile' | 'results'>;

/** The same with the notes, which tell what has been answered. */
export type Recorded = Windowed & Pick<SurgeonRecord, 'reflections'>;

/** At twenty, or at forty once that was decided. */
export const lookOf = ({ decisions }: Pick<Goal, 'decisions'>): Look =>
  decisions.some(({ kind }) => kind === 'second-look') ? 'second' : 'first';

/**
 * The window of a goal as the record has it, the one read last as it was read.
 * @param cases of the record, where something was merged into them
 */
export function goalWindow(record: Windowed, goal: Goal, cases: readonly Case[] = record.cases): GoalWindow {
  const results = record.results.filter(({ goalId }) => goalId === goal.id);
  const read = results.find(({ look }) => look === 'second') ?? results[0] ?? null;
  const procedure = procedureOf(record, goal.procedureId);
  return windowOf({ ...goal, read }, cases, record.lists, procedure, lookOf(goal));
}

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

/** Of these cases, those whose checkpoints no note on this goal answers yet; none where no checkpoint is asked about. */
export function unanswered(
  reflections: readonly Reflection[],
  goal: Pick<Goal, 'id' | 'checkpoints'>,
  ids: readonly string[],
): string[] {
  if (goal.checkpoints.length === 0) return [];
  const answered = new Set(
    reflections
      .filter(({ goalId }) => goalId === goal.id)
      .flatMap(({ answers }) => answers.map(({ caseId }) => caseId)),
  );
  return ids.filter((id) => !answered.has(id));
}

/** A goal whose window runs, and the cases of it whose times are kept from view. */
export type HiddenTimes = { goalId: string; caseIds: readonly string[] };

/** Does this goal keep its cases' times from view? A paused goal does: a pause ends nothing. */
const hides = (goal: Goal): boolean =>
  (goal.state === 'running' || goal.state === 'paused') && goal.timesShown.length === 0;

/**
 * Cases whose times are not shown, because they belong to a window that is not full: seeing half a window
 * influences the other half. Nor are those of a full one while its checkpoints wait to be answered and its result has not been read, so that
 * no answer follows a time. The surgeon may ask to see them, which is noted on the goal and lifts this.
 */
export function hiddenTimes(record: Recorded): HiddenTimes[] {
  return record.goals.filter(hides).flatMap((goal) => {
    const window = goalWindow(record, goal);
    if (!window.full) return [{ goalId: goal.id, caseIds: window.running }];
    const [first = []] = window.windows;
    const read = record.results.some(({ goalId, look }) => goalId === goal.id && look === lookOf(goal));
    if (read || owesReview(record, first) || !waitingIn(record, goal, first)) return [];
    return [{ goalId: goal.id, caseIds: first }];
  });
}

/** A pause for safety shows its numbers, so there is nothing left to hide. */
function owesReview({ cases, lists }: Recorded, ids: readonly string[]): boolean {
  const inWindow = new Set(ids);
  const own = cases.filter(({ id }) => inWindow.has(id));
  const events = [
    ...own.flatMap((one) => one.events ?? []),
    ...listsOf(own, lists).flatMap((list) => list.untimedEvents),
  ];
  return events.some((event) => isSerious(event) && event.reviewed === null);
}

/** Does a case among these wait for the answers to the goal's checkpoints? */
const waitingIn = (record: Recorded, goal: Goal, ids: readonly string[]): boolean =>
  unanswered(record.reflections, goal, ids).length > 0;

/** The same as one set of case ids. */
export function hiddenCaseIds(record: Recorded): Set<string> {
  return new Set(hiddenTimes(record).flatMap(({ caseIds }) => caseIds));
}

/**
 * Has the surgeon seen the times of this case? Honest by construction: nobody is asked. What was seen while the case
 * was left out does not become unseen by hiding it again.
 */
export const timesWereSeen = (
  one: { id: string; stretches: readonly unknown[]; timesSeenWhileLeftOut?: true | undefined },
  hidden: ReadonlySet<string>,
): boolean => one.stretches.length > 0 && (one.timesSeenWhileLeftOut === true || !hidden.has(one.id));
