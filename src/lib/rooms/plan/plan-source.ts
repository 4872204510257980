import { aimedEyesOf, hasEyes, pairOf, type Audit } from '../../audit';
import {
  practiceThresholds,
  startsAfter,
  type Cannot,
  type CannotStart,
  type StartedGoal,
  type StartGoalInput,
} from '../../practice';
import type { AimedEyes, Case, Goal, Measure, Procedure, SurgeonRecord } from '../../model';
import { pairEyesOf, planDraft, stepFactsOf, suggestionOf } from '../../rules';
import type { Guidance } from '../../rules/types';
import { aimedLabel } from '../../format';
import { VIEWS } from '../choose/choose-view';
import { ENGINE } from '../../assess/engine';
import { hiddenCaseIds } from '../goals/hidden-times';
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
  /** The kind of eye it is to be aimed at, if any. */
  eyes: AimedEyes | null;
  /** The view it was opened from. */
  view: string | null;
  /** A reason from outside the record, given before the views were opened; `null`: chosen from the record. */
  ownReason: string | null;
  query: string;
};

/** How a start is fixed: a server passes in a function that lets other requests take their turn. */
export type Starting = {
  start: (input: StartGoalInput) => Promise<StartedGoal | Cannot<CannotStart>>;
  pause: () => Promise<unknown>;
};

/** Everything the plan page rests on; `null` where the step has no time in this record. */
export async function planSource(input: PlanInput, { start, pause }: Starting): Promise<PlanSource | null> {
  const { audit, record, procedure, cases, stepId, guidance, eyes, ownReason } = input;
  const step = procedure.steps.find(({ id }) => id === stepId);
  const safety = safetyFactsFor(audit, record);
  await pause();
  const pair = pairOf({
    cases: eyes ? cases.filter((one) => hasEyes(one, eyes)) : cases,
    lists: record.lists,
    procedure,
    stepId,
    within: eyes ? null : pairEyesOf(audit, stepId),
  });
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
  const draft = planDraft(facts, guidance ?? emptyPage(procedure.id, stepId, step.label), eyes);
  const chosenBy = chosenByOf(input, suggestionOf(audit, safety));
  const measure = (['time', 'steadiness'] as const).find((each) => draft.measures.includes(each)) ?? 'checkpoints';
  const toStart = startInput(record, procedure, stepId, measure, chosenBy, eyes);
  await pause();
  return {
    procedure,
    step,
    draft,
    eyes,
    aims: eyes ? [] : aimsOf(procedure, cases, stepId),
    guidance,
    ownCheckpoints: record.profile.ownCheckpoints,
    started: await start(toStart),
    codes: new Map(record.cases.map(({ id, code }) => [id, code])),
    since: record.cases.find(({ sequence }) => sequence === toStart.notBefore)?.code ?? null,
    supervisor: supervisorAsked(
      record.cases.filter((each) => each.procedureId === procedure.id),
      record.profile,
    ),
    chosenBy,
    reason: ownReason,
    running: record.goals
      .filter(({ state }) => state === 'running' || state === 'paused')
      .map((goal) => aimedLabel(procedure.steps.find(({ id }) => id === goal.stepId)?.label ?? goal.stepId, goal.eyes)),
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
  eyes: AimedEyes | null,
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
    eyes,
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
  { ownReason, stepId, view, eyes, procedure }: PlanInput,
  suggestion: ReturnType<typeof suggestionOf>,
): Goal['chosenBy'] {
  if (ownReason !== null) return 'own';
  const suggested = suggestion.eyes;
  if (eyes && suggested?.stepId === stepId) {
    const named = aimedEyesOf(procedure, suggested.factId, suggested.levels.join('+'));
    if (named?.fact === eyes.fact && named.level === eyes.level) return 'eyes';
  }
  if (suggestion.steps.includes(stepId) && suggestion.view) return suggestion.view;
  const also = suggestion.also.find((each) => each.stepId === stepId);
  return also?.view ?? VIEWS.find((each) => each === view) ?? 'seconds';
}

/** Kinds of eye the goal could be aimed at: yes, or a level, of at least eight cases and at most half of those with the step. */
function aimsOf(procedure: Procedure, cases: readonly Case[], stepId: string): { eyes: AimedEyes; cases: number }[] {
  const timed = cases.filter((one) => one.stretches.some((stretch) => stretch.stepId === stepId));
  return procedure.facts.flatMap((fact) => {
    const levels = fact.kind === 'yes-no' ? ['yes'] : (fact.levels ?? []).map(({ id }) => id);
    return levels.flatMap((level) => {
      const eyes = aimedEyesOf(procedure, fact.id, level);
      const such = eyes ? timed.filter((one) => hasEyes(one, eyes)).length : 0;
      return eyes && such >= practiceThresholds.pairCases && 2 * such <= timed.length ? [{ eyes, cases: such }] : [];
    });
  });
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
