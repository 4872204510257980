import { knownLists, toldApartOn, type EyeColumns, type Interval } from '../audit';
import type { FrozenModel, Baseline } from '../model';
import { atOnce, inSlices, type Slices, type Work } from '../turns';
import { allowingForSelection, type SelectionAllowance } from './selection-allowance';
import { cannot, type Cannot, type CannotStart } from './cannot';
import type { CaseArrays } from './case-arrays';
import { hashOfCases } from './case-hash';
import { notANumber, recordNotANumber } from './not-a-number';
import { powerOf, type Power } from './power';
import { referenceMedians } from './reference-medians';
import { paceOf, type Pace } from './aimed-pace';
import { allowanceForEyes, timeOfStart } from './aimed-start';
import { isJudged, baselineCases, type StartCaveat } from './baseline-cases';
import type { StartGoalInput } from './start-goal-input';
import { medianAndP20, type BaselineModel } from './baseline-model';

export type StartedGoal = {
  kind: 'start';
  baseline: Baseline;
  /** Seconds: from half-way between the adjusted 20th percentile and the median, to the recorded median. For the plan page only. */
  expectedRange: Interval | null;
  power: Power | null;
  cases: number;
  /** `null`: lists are not known. */
  lists: number | null;
  /** The step was already getting shorter: the latest 40 were taken. */
  falling: boolean;
  /** How long the window will take; `null` where the goal is aimed at no kind of eye. */
  pace: Pace | null;
  caveats: StartCaveat[];
};

/**
 * Fixes the baseline cases of a goal by id, with the adjustment as it stands, the allowance for having picked the
 * step, and what twenty and forty cases can show. Deterministic for one seed. Errors: a returned case with its reason.
 */
export function startGoal(input: StartGoalInput): StartedGoal | Cannot<CannotStart> {
  return atOnce(starting(input));
}

/** The same in slices of well under 50 ms, for a server that answers others meanwhile. */
export const startGoalInSlices = (input: StartGoalInput, how: Slices): Promise<StartedGoal | Cannot<CannotStart>> =>
  inSlices(starting(input), how);

function* starting(input: StartGoalInput): Work<StartedGoal | Cannot<CannotStart>> {
  const { seed, resamples, from, notBefore } = input;
  const wrong = recordNotANumber(input) ?? notANumber({ seed, resamples, from, 'not-before': notBefore });
  if (wrong) return wrong;
  const found = baselineCases(input);
  if (found.kind === 'cannot') return found;
  yield 0.1;
  const { arrays, model } = found;
  const judged = isJudged(input);
  const fit = model.fits.get(arrays.stepIndex);
  if (judged && !fit) return cannot({ code: 'no-variation' });
  const level = medianAndP20(model.adjusted[arrays.stepIndex] ?? new Float64Array(0));
  const half = level && (level.median + level.p20) / 2;
  const steer = level && half ? Math.log(half / level.median) : null;
  const selectionAllowance = judged ? yield* selectionAllowanceFor(input, arrays, model) : NONE;
  return {
    kind: 'start',
    baseline: {
      caseIds: arrays.table.cases.map((one) => one.id),
      frozen: level && fit ? frozenModel(found.planned, fit.facts, level) : null,
      selectionAllowance: selectionAllowance.time,
      selectionAllowanceSpread: selectionAllowance.spread,
      steer,
      seed: input.seed,
      engine: input.engine,
      hash: hashOfCases(arrays.table.cases),
    },
    expectedRange: level && half ? { low: half, high: level.median } : null,
    power: judged
      ? powerOf({
          y: arrays.y,
          stepIndex: arrays.stepIndex,
          others: arrays.othersOf(arrays.stepIndex),
          columns: found.planned.columns,
          list: arrays.list,
          selectionAllowance: selectionAllowance.time,
          steer,
          aimed: Boolean(input.eyes),
        })
      : null,
    cases: arrays.table.cases.length,
    lists: arrays.listsKnown ? knownLists(arrays.table.cases) : null,
    falling: found.falling,
    pace: input.eyes
      ? paceOf(timeOfStart(input, arrays.table.cases), input.lists, input.eyes, input.windowLength ?? 20)
      : null,
    caveats: found.caveats,
  };
}

const NONE: SelectionAllowance = { time: 0, spread: 0 };

/** None for a reason given before the views were opened. */
function* selectionAllowanceFor(
  input: StartGoalInput,
  arrays: CaseArrays,
  model: BaselineModel,
): Work<SelectionAllowance> {
  const view = input.chosenBy;
  if (view === 'own' || view === 'safety') return NONE;
  if (input.eyes || view === 'eyes') return input.eyes ? yield* allowanceForEyes(input, arrays.table.cases) : NONE;
  const reference = referenceMedians(input.references, arrays);
  const step = (index: number) => input.procedure.steps.find((one) => one.id === arrays.table.stepIds[index]);
  const candidates = [...arrays.y.keys()].filter(
    (index) =>
      index === arrays.stepIndex ||
      !(step(index)?.notToShorten || step(index)?.retired || (view === 'spread' && step(index)?.optional)),
  );
  return yield* allowingForSelection({
    ...model,
    candidates,
    apart: view === 'seconds' ? yield* toldApartOn(arrays.table, input.lists, arrays.eye) : undefined,
    view,
    referenceMedians: reference,
    list: arrays.list,
    seed: input.seed,
    resamples: input.resamples,
  });
}

/** A fact the baseline cases alone cannot carry has no coefficient yet: it enters the result and takes nothing out before. */
function frozenModel(eye: EyeColumns, facts: readonly number[], level: { median: number; p20: number }): FrozenModel {
  return {
    columns: [...eye.names],
    coefficients: eye.names.map((_, index) => facts[index] ?? 0),
    centre: [...eye.centre],
    median: level.median,
    p20: level.p20,
  };
}
