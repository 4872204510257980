import { amongEyes } from '../audit';
import type { CannotJudge, Case, Effect, EyeCaveat, Measure, ResultKind } from '../model';
import { priorTrend, baselinePart, type PriorTrend } from './prior-trend';
import { caseArrays, type CaseArrays } from './case-arrays';
import type { ChangeInput } from './change';
import { judgeSteadiness } from './judge-steadiness';
import { judgeAimed } from './judge-aimed';
import type { TimeJudgement } from './judge-time';
import type { StartArrays } from './chance-of-shorter';
import { chanceOfFifth } from './power';
import { longerNeighbours } from './longer-neighbours';
import type { ResultInput } from './result-input';

export type JudgedCases = {
  kind: ResultKind;
  cannot: CannotJudge | null;
  time: TimeJudgement | null;
  spread: Effect | null;
  rangeBaseline: [number, number] | null;
  rangeWindow: [number, number] | null;
  priorTrend: PriorTrend | null;
  /** There was a fact of the eye to adjust by. */
  adjusted: boolean;
  powerForAFifth: number | null;
  listsKnown: boolean;
  sharedHands: boolean;
  caveats: readonly EyeCaveat[];
  /** Aimed: *shorter* did not hold without the shortest excess cases; what is here is without them. */
  withoutExcess: boolean;
  /** Beside *shorter* only. */
  neighbours: { stepId: string; label: string; effect: Effect }[];
};

const NOT_JUDGED: Partial<Record<Measure, CannotJudge>> = {
  checkpoints: { code: 'not-a-time-goal', measure: 'checkpoints' },
  safety: { code: 'not-a-time-goal', measure: 'safety' },
};

/** Nothing can be said of these cases, for one reason. */
export const notJudged = (why: CannotJudge): JudgedCases => ({
  kind: 'cannot-tell',
  cannot: why,
  time: null,
  spread: null,
  rangeBaseline: null,
  rangeWindow: null,
  priorTrend: null,
  adjusted: false,
  powerForAFifth: null,
  listsKnown: true,
  sharedHands: false,
  caveats: [],
  withoutExcess: false,
  neighbours: [],
});

/**
 * What these cases say by the goal's measure, before safety is asked.
 * @param excess of an aimed goal: so many such eyes more than their share at the start foretells
 */
export function judgeCases(
  input: ResultInput,
  baseline: readonly Case[],
  window: readonly Case[],
  excess = 0,
): JudgedCases {
  const procedure = amongEyes(input.procedure, input.eyes);
  const arrays = caseArrays([...baseline, ...window], procedure, input.lists, input.stepId, {
    frozen: input.baseline.frozen,
    underGoal: input.underGoal,
  });
  const whole = changeInput(arrays, [window]);
  const { selectionAllowance, steer } = input.baseline;
  const judged =
    input.measure === 'safety' ? null : judgeAimed(whole, { selectionAllowance, steer, look: input.look }, excess);
  const [time, change] = [judged?.time ?? null, judged?.input ?? whole];
  const steadiness =
    time && input.measure === 'steadiness'
      ? judgeSteadiness(time, change, {
          selectionAllowance: input.baseline.selectionAllowanceSpread,
          look: input.look,
          seed: input.seed,
          permutations: input.permutations,
        })
      : null;
  const difference = time?.change.difference;
  return {
    kind: input.measure === 'time' ? (time?.kind ?? 'cannot-tell') : (steadiness?.kind ?? 'cannot-tell'),
    cannot: NOT_JUDGED[input.measure] ?? (steadiness ? steadiness.cannot : (time?.cannot ?? null)),
    time,
    spread: steadiness?.spread ?? null,
    rangeBaseline: steadiness?.rangeBaseline ?? null,
    rangeWindow: steadiness?.rangeWindow ?? null,
    priorTrend: difference ? priorTrend(difference, change) : null,
    // Where such eyes are clearly more frequent the bound on them leaves hardly any *shorter*: no chance is claimed.
    powerForAFifth: time && excess === 0 ? chanceOfFifth(startOf(change), window.length, selectionAllowance) : null,
    adjusted: arrays.columns.some((column) => column.some((value) => value !== column[0])),
    listsKnown: arrays.listsKnown,
    sharedHands: arrays.table.cases.some(
      ({ hands }) => hands.whole !== 'mine' || Object.values(hands.steps).some((whose) => whose !== 'mine'),
    ),
    caveats: arrays.eye.caveats,
    withoutExcess: judged?.withoutExcess ?? false,
    neighbours: time?.kind === 'shorter' ? neighboursOf(change, arrays) : [],
  };
}

/** The baseline cases alone, as when the goal was set. */
function startOf(change: ChangeInput): StartArrays {
  const part = (row: Float64Array) => baselinePart(change, row).values;
  return { ...change, ...baselinePart(change, new Float64Array(0)), y: change.y.map(part) };
}

/** The steps before and after the practised one, in the order of the operation, that took clearly longer. */
function neighboursOf(change: ChangeInput, { table, stepIndex, othersOf }: CaseArrays): JudgedCases['neighbours'] {
  const beside = [stepIndex - 1, stepIndex + 1].filter((step) => step >= 0 && step < table.stepIds.length);
  return longerNeighbours(change, beside, othersOf).map(({ step, effect }) => {
    const stepId = table.stepIds[step] ?? '';
    return { stepId, label: table.procedure.steps.find(({ id }) => id === stepId)?.label ?? stepId, effect };
  });
}

/** Arrays of baseline cases and windows as the core takes them; every case in none of the windows is a baseline case. */
export function changeInput(arrays: CaseArrays, windows: readonly (readonly Case[])[]): ChangeInput {
  const period = new Map(windows.flatMap((window, index) => window.map((one) => [one.id, index + 1] as const)));
  return {
    y: arrays.y,
    stepIndex: arrays.stepIndex,
    others: arrays.othersOf(arrays.stepIndex),
    columns: arrays.columns,
    window: Int32Array.from(arrays.table.cases, (one) => period.get(one.id) ?? 0),
    windows: windows.length,
    list: arrays.list,
    listsKnown: arrays.listsKnown,
  };
}
