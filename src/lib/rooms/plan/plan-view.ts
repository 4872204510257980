import type { Cannot, CannotStart, StartedGoal } from '../../practice';
import type { AimedEyes, Goal, Measure, OwnCheckpoint, Procedure, Step } from '../../model';
import { aimedLabel, counted } from '../../format';
import type { GivenReason, Guidance, PlanDraft } from '../../rules';
import {
  aimedPlanWords,
  draftReminders,
  expectedRangeWords,
  MEASURE_OPTIONS,
  moreCheckpoints,
  OWN_CHECKPOINT,
  otherGoalsWords,
  planReasonWords,
  powerSentences,
  SAME_REASON,
  startSentences,
  WATCH_LEAD,
  cannotStartWords,
} from '../../words';

export type PlanView = {
  step: { id: string; label: string };
  procedureId: string;
  /** Why this step, in words with their numbers. */
  because: readonly string[];
  earlierFirst: readonly { label: string; href: string; because: string }[];
  checkpoints: readonly { id: string; look: string; why: string; because: string | null; chosen: boolean }[];
  /** So many stand each with its hint; what opens the others. */
  atLength: number;
  more: string;
  measures: readonly { id: Measure; label: string; hint: string; chosen: boolean }[];
  /** Why time or steadiness cannot be measured yet; `null` when they can, or are not offered. */
  cannotMeasure: string | null;
  watch: readonly { id: string; label: string; chosen: boolean }[];
  watchLead: string | null;
  start: readonly string[];
  expected: string | null;
  power: readonly string[];
  windowLength: 20 | 40;
  stop: readonly string[];
  reminders: readonly string[];
  drills: readonly { where: string; minutes: number; do: string; passed: string; because: string }[];
  supervisor: string | null;
  chosenBy: Goal['chosenBy'];
  reason: string | null;
  others: string | null;
  /** The kind of eye it is aimed at, in sentences; and the kinds it could be aimed at instead. */
  aimed: readonly string[];
  aims: readonly { label: string; eyes: string }[];
};

export type PlanSource = {
  procedure: Procedure;
  step: Step;
  draft: PlanDraft;
  eyes: AimedEyes | null;
  aims: readonly { eyes: AimedEyes; cases: number }[];
  guidance: Guidance | null;
  ownCheckpoints: readonly OwnCheckpoint[];
  /** What starting today would fix; or why time cannot be measured. */
  started: StartedGoal | Cannot<CannotStart>;
  codes: ReadonlyMap<string, string>;
  /** Code of the case with which a change under an earlier goal begins; `null`: there is none. */
  since: string | null;
  supervisor: string | null;
  chosenBy: Goal['chosenBy'];
  reason: string | null;
  /** Other goals that run. */
  running: readonly string[];
  query: string;
};

/** What can be looked for in a step: the page's checkpoints in the order the rules chose them, then the surgeon's own. */
export function offeredCheckpoints(
  source: Pick<PlanSource, 'draft' | 'guidance' | 'ownCheckpoints' | 'procedure' | 'step'>,
) {
  const { draft, guidance, ownCheckpoints, procedure, step } = source;
  const chosen = draft.checkpoints.map((each) => ({ ...each, chosen: true }));
  const others = (guidance?.checkpoints ?? [])
    .filter(({ id }) => !chosen.some((each) => each.id === id))
    .map(({ id, look, why }) => ({ id, look, why, because: null, chosen: false }));
  const own = ownCheckpoints
    .filter((each) => each.procedureId === procedure.id && each.stepId === step.id)
    .filter(({ id }) => !chosen.some((each) => each.id === id))
    .map(({ id, look }) => ({ id, look, why: OWN_CHECKPOINT, because: null, chosen: false }));
  return [...chosen, ...others, ...own];
}

/** The plan page of a step: what the rules draw up, what starting today would fix, and what twenty cases can show. */
export function planView(source: PlanSource): PlanView {
  const { procedure, step, draft, started } = source;
  const judged = started.kind === 'start' && draft.measures.some((each) => each === 'time' || each === 'steadiness');
  const offered = draft.measures.filter(
    (each) => started.kind === 'start' || each === 'checkpoints' || each === 'safety',
  );
  const first = offered[0];
  // One reason for everything stands at the top of the page; only where there are several is each named beside what it gave.
  const told = (reason: GivenReason) =>
    draft.because.length === 1 && draft.because[0]?.code === reason.code ? null : say(reason);
  const labelOf = (id: string) => procedure.steps.find((each) => each.id === id)?.label ?? id;
  const say = (reason: GivenReason) => planReasonWords(reason, labelOf);
  const checkpoints = offeredCheckpoints(source).map((each) => ({
    ...each,
    because: each.because && told(each.because),
  }));
  const atLength = Math.max(1, checkpoints.filter(({ chosen }) => chosen).length);
  const because = draft.because.map(say);
  return {
    step: { id: step.id, label: aimedLabel(step.label, source.eyes) },
    procedureId: procedure.id,
    because,
    earlierFirst: draft.earlierFirst.map(({ stepId, because }) => ({
      label: labelOf(stepId),
      href: `/choose/${stepId}${source.query}`,
      because: say(because),
    })),
    checkpoints: saidOnce(checkpoints),
    atLength,
    more: moreCheckpoints(checkpoints.length - atLength),
    measures: offered.map((id) => ({ id, ...MEASURE_OPTIONS[id], chosen: id === first })),
    cannotMeasure: started.kind === 'cannot' ? cannotStartWords(started.why) : null,
    watch: step.protectedParts.map(({ id, label }) => ({ id, label, chosen: draft.watch.includes(id) })),
    watchLead: step.protectedParts.length > 0 ? WATCH_LEAD : null,
    start: started.kind === 'start' ? startSentences(started, source.codes, source.eyes, source.since) : [],
    expected:
      judged && started.kind === 'start' && started.expectedRange
        ? expectedRangeWords(started.expectedRange, (started.baseline.frozen?.columns.length ?? 0) > 0)
        : null,
    power: started.kind === 'start' && started.power ? powerSentences(started.power) : [],
    windowLength: first === 'steadiness' ? 40 : 20,
    stop: draft.stop,
    reminders: draftReminders(draft),
    // They stand in the margin under the reasons for the step.
    drills: draft.drills
      .map((drill) => ({ ...drill, because: told(drill.because) ?? '' }))
      .map((drill) => (because.includes(drill.because) ? { ...drill, because: '' } : drill)),
    supervisor: source.supervisor,
    chosenBy: source.chosenBy,
    reason: source.reason,
    aimed: source.eyes ? aimedPlanWords(source.eyes) : [],
    aims: source.aims.map(({ eyes, cases }) => ({
      label: `${eyes.label} (${counted(cases, 'case')})`,
      eyes: `${eyes.fact}:${eyes.level}`,
    })),
    others: source.running.length > 0 ? otherGoalsWords(source.running) : null,
  };
}

/** A reason in full where it is given first. */
const saidOnce = (checkpoints: PlanView['checkpoints']): PlanView['checkpoints'] =>
  checkpoints.map((each, at) =>
    each.because !== null && checkpoints.slice(0, at).some(({ because }) => because === each.because)
      ? { ...each, because: SAME_REASON }
      : each,
  );
