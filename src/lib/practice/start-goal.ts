import type { Interval } from '../audit';
import type { Case, FrozenModel, Goal, ListRecord, Measure, Procedure, ReferenceSet, Start } from '../model';
import { allowanceOf, type Allowance } from './allowance';
import { cannot, type Cannot } from './cannot';
import { caseArrays, type CaseArrays } from './case-arrays';
import { hashOfCases } from './case-hash';
import { countedForGoal } from './counted-for-goal';
import { powerOf, type Power } from './power';
import { referenceUsual } from './reference-usual';
import { startingModel, trendOf, usualOf, type StartingModel } from './starting-model';
import { practiceThresholds as set } from './thresholds';

export type StartGoalInput = {
  /** The record; what counts is found here. */
  cases: readonly Case[];
  lists: readonly ListRecord[];
  procedure: Procedure;
  references: readonly ReferenceSet[];
  stepId: string;
  measure: Measure;
  chosenBy: Goal['chosenBy'];
  seed: number;
  engine: string;
  /** Sequence number: only cases before it. */
  from?: number;
  /** Sequence number: only cases from it on, for a new goal on a step that has changed. */
  notBefore?: number;
  /** Other steps that were themselves under a goal in these cases. */
  underGoal?: readonly string[];
  resamples?: number;
};

export type StartedGoal = {
  kind: 'start';
  start: Start;
  /** Seconds, adjusted for the eye: half-way between usual and one in five, to usual. For the plan page only. */
  expectedRange: Interval | null;
  power: Power | null;
  cases: number;
  /** `null`: lists are not known. */
  lists: number | null;
  /** The step was already getting shorter: the latest 40 were taken. */
  falling: boolean;
  said: string[];
};

/**
 * Fixes the starting cases of a goal by id, with the adjustment as it stands, the allowance for having picked the
 * step, and what twenty and forty cases can show. Deterministic for one seed. Errors: a returned case with its reason.
 */
export function startGoal(input: StartGoalInput): StartedGoal | Cannot {
  const { procedure, stepId } = input;
  if (!procedure.steps.some((step) => step.id === stepId))
    return cannot('unknown-step', `${procedure.name} has no step "${stepId}".`);
  const counted = countedForGoal(input.cases, procedure, stepId, input.lists).filter(
    (one) => one.sequence < (input.from ?? Infinity) && one.sequence >= (input.notBefore ?? -Infinity),
  );
  const judged = input.measure === 'time' || input.measure === 'steadiness';
  const ordered = counted.every((one) => one.orderKnown);
  if (input.from !== undefined && !ordered)
    return cannot(
      'order-unknown',
      'The order of these cases is not known, so they cannot be parted into before and after. A goal can start from cases timed from now on.',
    );
  if (judged && counted.length < set.startAtLeast)
    return cannot(
      'few-cases',
      `${counted.length} cases count for this step; a goal needs ${set.startAtLeast}. ${set.startAtLeast - counted.length} more will do.`,
    );
  let chosen = counted.slice(-set.startAtMost);
  let arrays = caseArrays(chosen, procedure, input.lists, stepId, input);
  let model = startingModel(arrays, arrays.othersOf);
  const falling = ordered && isFalling(arrays, model);
  if (falling && chosen.length > set.startWhenFalling) {
    chosen = chosen.slice(-set.startWhenFalling);
    arrays = caseArrays(chosen, procedure, input.lists, stepId, input);
    model = startingModel(arrays, arrays.othersOf);
  }
  const fit = model.fits.get(arrays.stepIndex);
  if (judged && arrays.listsKnown && arrays.table.listCount < set.listsEachPeriod)
    return cannot(
      'few-lists',
      `These cases come from ${arrays.table.listCount} lists; at least ${set.listsEachPeriod} are needed, or one good or bad list could be the whole change.`,
    );
  if (judged && !fit) return cannot('no-variation', 'These times are all the same, so a change could not be judged.');
  const usual = usualOf(model.adjusted[arrays.stepIndex] ?? new Float64Array(0));
  const half = usual && (usual.usual + usual.oneInFive) / 2;
  const steer = usual && half ? Math.log(half / usual.usual) : null;
  const allowance = judged ? pickedAllowance(input, arrays, model) : { time: 0, spread: 0 };
  return {
    kind: 'start',
    start: {
      caseIds: arrays.table.cases.map((one) => one.id),
      frozen: usual && fit ? frozenModel(arrays, fit.facts, usual) : null,
      allowance: allowance.time,
      allowanceSpread: allowance.spread,
      steer,
      seed: input.seed,
      engine: input.engine,
      hash: hashOfCases(chosen),
    },
    expectedRange: usual && half ? { low: half, high: usual.usual } : null,
    power: judged
      ? powerOf({
          difference: differenceOf(arrays, model),
          columns: arrays.columns,
          list: arrays.list,
          allowance: allowance.time,
          steer,
        })
      : null,
    cases: chosen.length,
    lists: arrays.listsKnown ? arrays.table.listCount : null,
    falling,
    said: [
      ...arrays.eye.said,
      ...(falling && counted.length > set.startWhenFalling
        ? [`The step was already getting shorter, so only the latest ${set.startWhenFalling} cases are the start.`]
        : []),
      ...(ordered ? [] : ['The order of these cases is not known, so nothing over time was looked at.']),
      ...(arrays.listsKnown ? [] : ['Lists are not known, so neighbouring cases are treated as one list.']),
    ],
  };
}

const differenceOf = ({ stepIndex, list }: CaseArrays, model: StartingModel) =>
  model.differences[stepIndex] ?? new Float64Array(list.length).fill(NaN);

function isFalling(arrays: CaseArrays, model: StartingModel): boolean {
  return trendOf(differenceOf(arrays, model), arrays.columns, arrays.list)?.falling ?? false;
}

/** None for a reason given before the views were opened. */
function pickedAllowance(input: StartGoalInput, arrays: CaseArrays, model: StartingModel): Allowance {
  const view = input.chosenBy;
  if (view === 'own' || view === 'safety') return { time: 0, spread: 0 };
  const reference = referenceUsual(input.references, arrays);
  const step = (index: number) => input.procedure.steps.find((one) => one.id === arrays.table.stepIds[index]);
  const candidates = [...arrays.y.keys()].filter(
    (index) =>
      index === arrays.stepIndex || !(step(index)?.notToShorten || (view === 'spread' && step(index)?.optional)),
  );
  return allowanceOf({
    ...model,
    candidates,
    view,
    referenceUsual: reference,
    list: arrays.list,
    seed: input.seed,
    resamples: input.resamples,
  });
}

function frozenModel(
  { eye }: CaseArrays,
  facts: readonly number[],
  usual: { usual: number; oneInFive: number },
): FrozenModel {
  return {
    columns: [...eye.names],
    coefficients: eye.names.map((_, index) => facts[index] ?? 0),
    centre: [...eye.centre],
    ...usual,
  };
}
