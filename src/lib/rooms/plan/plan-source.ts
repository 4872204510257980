import { pairOf, type Audit } from '../../audit';
import { practiceThresholds, startsAfter, type StartedGoal, type StartGoalInput } from '../../practice';
import type { Case, Goal, Measure, Procedure, SurgeonRecord } from '../../model';
import { planDraft, stepFactsOf, suggestionOf } from '../../rules';
import type { Guidance } from '../../rules/types';
import { VIEWS } from '../choose/choose-view';
import { ENGINE } from '../../assess/engine';
import { hiddenCaseIds } from '../goals/goal-standing';
import { stepsUnderGoal } from '../goals/goal-reading';
import type { PlanSource } from './plan-view';
import { safetyFactsFor } from '../../assess/suggest';
import { supervisorAsked } from './supervision';

/** Chance in starting a goal (resamples for the allowance) comes from here, so that the same day gives the same start. */
const START_SEED = 1;

export type PlanInput = {
  audit: Audit;
  record: SurgeonRecord;
  procedure: Procedure;
  /** Cases that may be looked at: those of a running window are not among them. */
  cases: readonly Case[];
  stepId: string;
  guidance: Guidance | null;
  /** The view it was opened from. */
  view: string | null;
  /** A reason from outside the record, given before the views were opened; `null`: chosen from the record. */
  ownReason: string | null;
  query: string;
};

/** How a start is fixed: a server hands in what lets others have their turn. */
export type Starting = {
  start: (input: StartGoalInput) => Promise<StartedGoal | { kind: 'cannot'; because: string }>;
  pause: () => Promise<unknown>;
};

/** Everything the plan page rests on; `null` where the step has no time in this record. */
export async function planSource(input: PlanInput, { start, pause }: Starting): Promise<PlanSource | null> {
  const { audit, record, procedure, cases, stepId, guidance, ownReason } = input;
  const step = procedure.steps.find(({ id }) => id === stepId);
  const safety = safetyFactsFor(audit, record);
  await pause();
  const pair = pairOf({ cases, lists: record.lists, procedure, stepId });
  const facts = stepFactsOf(
    audit,
    cases,
    stepId,
    safety,
    record.lists,
    pair.kind === 'pair' ? { shorter: pair.shorter.code, longer: pair.longer.code } : null,
  );
  if (!step || !facts || facts.step.n === 0) return null;
  await pause();
  const draft = planDraft(facts, guidance ?? emptyPage(procedure.id, stepId, step.label));
  const chosenBy = chosenByOf(input, suggestionOf(audit, safety));
  const measure = (['time', 'steadiness'] as const).find((each) => draft.measures.includes(each)) ?? 'checkpoints';
  const toStart = startInput(record, procedure, stepId, measure, chosenBy);
  await pause();
  return {
    procedure,
    step,
    draft,
    guidance,
    ownCheckpoints: record.profile.ownCheckpoints,
    started: await start(toStart),
    codes: new Map(record.cases.map(({ id, code }) => [id, code])),
    supervisor: supervisorAsked(
      record.cases.filter((each) => each.procedureId === procedure.id),
      record.profile,
    ),
    chosenBy,
    reason: ownReason,
    running: record.goals
      .filter(({ state }) => state === 'running' || state === 'paused')
      .map((goal) => procedure.steps.find(({ id }) => id === goal.stepId)?.label ?? goal.stepId),
    query: input.query,
  };
}

/** What starting today rests on. A goal without a time starts from as many cases as there are. */
export function startInput(
  record: SurgeonRecord,
  procedure: Procedure,
  stepId: string,
  measure: Measure,
  chosenBy: Goal['chosenBy'],
  windowLength: 20 | 40 = measure === 'steadiness' ? 40 : 20,
): StartGoalInput {
  const latest = record.cases
    .filter((each) => each.procedureId === procedure.id)
    .slice(-practiceThresholds.startAtMost);
  const notBefore = startsAfter(stepId, procedure.id, record.goals, record.results, record.cases);
  // Times of a running window are kept from view, so they enter no range shown before it is full.
  const hidden = hiddenCaseIds(record);
  return {
    cases: record.cases.filter((each) => !hidden.has(each.id)),
    lists: record.lists,
    procedure,
    references: record.references,
    stepId,
    measure,
    chosenBy,
    seed: START_SEED,
    engine: ENGINE,
    windowLength,
    ...(notBefore === null ? {} : { notBefore }),
    underGoal: stepsUnderGoal(
      record,
      { id: '', procedureId: procedure.id, stepId },
      latest.map(({ id }) => id),
    ),
  };
}

/** The view the step was shown on: the suggestion's, else the one it was also worth a look on, else the one looked at. */
function chosenByOf(
  { ownReason, stepId, view }: PlanInput,
  suggestion: ReturnType<typeof suggestionOf>,
): Goal['chosenBy'] {
  if (ownReason !== null) return 'own';
  if (suggestion.steps.includes(stepId) && suggestion.view) return suggestion.view;
  const also = suggestion.also.find((each) => each.stepId === stepId);
  return also?.view ?? VIEWS.find((each) => each === view) ?? 'seconds';
}

/** A step nobody has written a page for: the rules still give a stop sign and a drill. */
const emptyPage = (procedureId: string, step: string, title: string): Guidance => ({
  procedureId,
  step,
  title,
  aim: '',
  protectedParts: [],
  checkpoints: [],
  reminders: [],
  stop: [],
  earlier: [],
  drills: [],
  sources: [],
  worksheet: null,
  marked: {},
  reviewed: null,
  body: '',
});
