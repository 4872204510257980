import { ENGINE } from '../../assess/engine';
import { monitorSignalled } from '../../assess/suggest';
import {
  casesWithIds,
  chartSeries,
  hashOfCases,
  lastingFor,
  recordedChange,
  resultFor,
  shortTimes,
  spanOfCases,
  timeOfCases,
  type ChartSeries,
  type GoalWindow,
  type Look,
  type ShortTimes,
} from '../../practice';
import type { Case, Goal, Lasting, Outcome, Procedure, StoredResult, SurgeonRecord } from '../../model';
import { gate, type Gate } from '../../safety';
import { atOnce, type Work } from '../../turns';
import { recordedChangeWords } from '../../words';
import { withProtectedSeen } from '../after-twenty/done-cells';
import { goalWindow } from './goal-window';
import { goalStanding, type GoalStanding } from './goal-standing';

/** A result as it is stored, before the store gives it an id and its reading a date. */
export type ResultToStore = Omit<StoredResult, 'id' | 'storedAt'>;

/** How a goal reads today, computed from the record; the stored result is beside it and never changed by it. */
export type GoalReading = GoalStanding & {
  /** Cases of the whole record with protected parts from reflections merged in. */
  cases: readonly Case[];
  /** Counted cases of the first window, full or filling, in order. */
  windowCases: readonly Case[];
  /** Every case operated in that span: for safety, which does not depend on what is counted. */
  spanCases: readonly Case[];
  /** What today's data say of the full window; `null` while it runs. Shown only beside a result that was read. */
  outcome: Outcome | null;
  /** Today's gate; `null` while no case has come. */
  gate: Gate | null;
  /** A pause that a written review can end: there is nothing to store until then, and the pause itself is shown. */
  waitsForReview: boolean;
  monitorSignalled: boolean;
  /** The windows whose times may be drawn: full ones once the result was read, and the one that fills on wish. */
  drawn: readonly (readonly string[])[];
  /**
   * What is stored when the surgeon asks for the result; `null` where it is stored already, the window is not full, the
   * plan is a draft, or a review is owed. Only that request stores it: opening a page writes nothing, and a change that
   * fills the window leaves the checkpoints to be answered first. The kind is fixed by the cases at the moment it is
   * read: their ids, a hash of what they hold, the seed and the engine stand with it.
   */
  toStore: ResultToStore | null;
};

/** The goal with its window, its gate, and what today's data say once the window is full. */
export const goalReading = (record: SurgeonRecord, goal: Goal): GoalReading => atOnce(readingGoal(record, goal));

/** The same, yielding before the longest part. */
export function* readingGoal(record: SurgeonRecord, goal: Goal): Work<GoalReading> {
  const cases = withProtectedSeen(record.cases, record.reflections);
  const standing = goalStanding(record, goal, cases);
  const { procedure, look, window, stored, following } = standing;
  const windowIds = window.windows[0] ?? window.running;
  const starting = casesWithIds(cases, goal.baseline.caseIds);
  const windowCases = casesWithIds(cases, windowIds);
  const spanCases = spanOfCases(cases, windowIds, procedure.id);
  yield 0.2;
  const signalled = monitorSignalled(record, procedure.id);
  const safety =
    spanCases.length === 0
      ? null
      : gate({
          procedure,
          stepId: goal.stepId,
          windowCases: spanCases,
          startCases: goal.eyes ? timeOfCases(cases, goal.baseline.caseIds, procedure.id) : starting,
          protectedPartIds: goal.watch,
          lists: record.lists,
          monitorSignalled: signalled,
        });
  yield 0.4;
  const outcome = window.full ? outcomeOf(record, goal, procedure, cases, window, look) : null;
  const waitsForReview = outcome?.kind === 'paused' && !(safety?.final ?? false);
  const read = stored.some((each) => each.look === look);
  return {
    ...standing,
    cases,
    windowCases,
    spanCases,
    outcome,
    gate: safety,
    waitsForReview,
    monitorSignalled: signalled,
    drawn:
      read || waitsForReview
        ? following.inSight
        : !window.full && goal.timesShown.length > 0
          ? [...window.windows, window.running]
          : [],
    toStore:
      outcome && !read && !waitsForReview && goal.state !== 'draft'
        ? {
            goalId: goal.id,
            look,
            inputHash: hashOfCases([...starting, ...windowCases]),
            baselineIds: goal.baseline.caseIds,
            windowIds,
            stepId: goal.stepId,
            seed: goal.baseline.seed,
            engine: ENGINE,
            outcome,
          }
        : null,
  };
}

/** Whether a *shorter* lasted, one answer a following twenty; empty for every other result. */
export function lastingOf(record: SurgeonRecord, reading: GoalReading): Lasting[] {
  const { goal, procedure, cases, following, stored } = reading;
  const windows = following.inSight;
  const latest = stored[stored.length - 1];
  if (latest?.outcome.kind !== 'shorter') return [];
  return lastingFor({
    cases,
    lists: record.lists,
    procedure,
    baseline: goal.baseline,
    windows,
    stepId: goal.stepId,
    eyes: goal.eyes,
    underGoal: stepsUnderGoal(record, goal, [...goal.baseline.caseIds, ...windows.flat()]),
  });
}

/**
 * Very short times of a full window, where there are so many that it should be asked whether something was left out;
 * `null` where not, and where no time is judged or shown.
 */
export function shortTimesState(record: Pick<SurgeonRecord, 'lists'>, reading: GoalReading): ShortTimes | null {
  const { goal, procedure, cases, window, outcome } = reading;
  if (!outcome || outcome.kind === 'paused' || (goal.measure !== 'time' && goal.measure !== 'steadiness')) return null;
  const found = shortTimes({
    cases,
    lists: record.lists,
    procedure,
    baseline: goal.baseline,
    windowIds: window.windows[0] ?? [],
    stepId: goal.stepId,
  });
  return found?.ask ? found : null;
}

/** The change as recorded, beside the latest result that was read; empty where no time is judged or the cases are gone. */
export function recordedOf({
  stored,
  cases,
  procedure,
}: Pick<GoalReading, 'stored' | 'cases' | 'procedure'>): string[] {
  const latest = stored.at(-1);
  if (!latest || (latest.outcome.measure !== 'time' && latest.outcome.measure !== 'steadiness')) return [];
  const change = recordedChange(latest, cases, procedure);
  return change ? recordedChangeWords(change, latest.outcome.plain) : [];
}

/** Points of the chart over the windows that may be drawn; `null` where no time may be seen, or nothing can be drawn. */
export function seriesOf(
  record: SurgeonRecord,
  { goal, procedure, cases, drawn }: Pick<GoalReading, 'goal' | 'procedure' | 'cases' | 'drawn'>,
): ChartSeries | null {
  if (goal.measure === 'safety' || goal.state === 'draft' || drawn.every((ids) => ids.length === 0)) return null;
  const series = chartSeries({
    cases,
    lists: record.lists,
    procedure,
    baseline: goal.baseline,
    windows: drawn,
    stepId: goal.stepId,
    eyes: goal.eyes,
    underGoal: stepsUnderGoal(record, goal, [...goal.baseline.caseIds, ...drawn.flat()]),
  });
  return series.kind === 'series' ? series : null;
}

function outcomeOf(
  record: SurgeonRecord,
  goal: Goal,
  procedure: Procedure,
  cases: readonly Case[],
  window: GoalWindow,
  look: Look,
): Outcome {
  const windowIds = window.windows[0] ?? [];
  return resultFor({
    cases,
    lists: record.lists,
    procedure,
    baseline: goal.baseline,
    windowIds,
    stepId: goal.stepId,
    measure: goal.measure,
    eyes: goal.eyes,
    look,
    seed: goal.baseline.seed,
    watch: goal.watch,
    underGoal: stepsUnderGoal(record, goal, [...goal.baseline.caseIds, ...windowIds]),
    seriousRate: record.profile.seriousRate,
    casesBefore: record.profile.casesBefore[procedure.id] ?? null,
    inTraining: record.profile.inTraining,
  });
}

/** Other steps that were themselves under a goal in some of these cases: they may not stand for the rest. */
export function stepsUnderGoal(
  record: SurgeonRecord,
  goal: Pick<Goal, 'id' | 'procedureId' | 'stepId'>,
  caseIds: readonly string[],
): string[] {
  const ids = new Set(caseIds);
  const steps = record.goals
    .filter((other) => other.id !== goal.id && other.procedureId === goal.procedureId && other.state !== 'draft')
    .filter((other) => {
      const { windows, running } = goalWindow(record, other);
      return [...windows.flat(), ...running].some((id) => ids.has(id));
    })
    .map(({ stepId }) => stepId);
  return [...new Set(steps)].filter((stepId) => stepId !== goal.stepId);
}
