import { sortedSample } from '../../src/lib/audit/sorted-sample';
import { allowingForSelection, type SelectionAllowance } from '../../src/lib/practice/selection-allowance';
import { atOnce } from '../../src/lib/turns';
import type { ChangeInput } from '../../src/lib/practice/change';
import type { Look } from '../../src/lib/practice/effect';
import { judgeSteadiness } from '../../src/lib/practice/judge-steadiness';
import { judgeTime } from '../../src/lib/practice/judge-time';
import { lastingOf } from '../../src/lib/practice/lasting';
import { longerNeighbours } from '../../src/lib/practice/longer-neighbours';
import { powerOf, type Power } from '../../src/lib/practice/power';
import { viewValue } from '../../src/lib/practice/resampled-view';
import {
  baselineModel,
  medianAndP20,
  type BaselineArrays,
  type BaselineModel,
} from '../../src/lib/practice/baseline-model';
import { benjaminiHochberg, wilcoxonRankSum } from '../../src/lib/statistics';
import { aimedRun } from './characteristics-aimed';
import { simulate, type SimulatedRecord } from './characteristics-simulate';
import { saidToday, type Today } from './characteristics-today';
import type { World } from './characteristics-worlds';

export type Said = {
  /** The step that was picked, or the practised one. */
  step: number;
  allowance: number;
  /** The result of the twenty, or where the world takes a second look, of the two together. */
  kind: string;
  /** Beside *shorter*: a step next to it is named as longer. */
  neighbour?: boolean;
  /** One answer a following window, where the result was `shorter`. */
  lasting: string[];
  /** This step alone: would it have been called shorter on its own interval? */
  plainShorter: boolean;
  today: Today;
  /** What "Can twenty cases show it?" said at the start of a fifth (of a tenth, where the truth is a tenth). */
  predicted: () => number;
};

/** One run: a record is made, a step picked as the world says, and every rule says what it makes of it. `null`: not counted. */
export function oneRun(world: World, seed: number, run: number): Said | null {
  if (world.aimed) return aimedRun(world, seed, run);
  const record = simulate(world, seed, run);
  const start = startOf(record);
  const model = baselineModel(start, (step) => othersThan(world, step));
  const step = world.picked === 'not' ? world.practised : pick(world.picked, model, start);
  if (world.onlyIfPicked && step !== world.practised) return null;
  if (step !== world.practised) moveChange(record, world, step);
  const allowance = allowanceFor(world, model, start, seed + run);
  const level = medianAndP20(model.adjusted[step]!);
  const steer = level ? Math.log((level.median + level.p20) / 2 / level.median) : null;
  const whole: ChangeInput = { ...record, stepIndex: step, others: othersThan(world, step), listsKnown: true };
  const twenty = upTo(whole, 1);
  const judge = (input: ChangeInput, look: Look) =>
    judgeTime(input, { selectionAllowance: allowance.time, steer, look });
  const first = judge(twenty, 'first');
  let kind: string = first.kind;
  if (world.measure === 'steadiness')
    kind = judgeSteadiness(first, twenty, {
      selectionAllowance: allowance.spread,
      look: 'first',
      seed: seed + run,
    }).kind;
  else if (world.secondLook && kind !== 'shorter') kind = judge(asOne(upTo(whole, 2)), 'second').kind;
  const beside = [step - 1, step + 1].filter((each) => each >= 0 && each < world.steps);
  const neighbour =
    kind === 'shorter' && longerNeighbours(twenty, beside, (each) => othersThan(world, each)).length > 0;
  return {
    step,
    allowance: allowance.time,
    kind,
    neighbour,
    lasting: kind === 'shorter' && !world.secondLook ? lastingOf(whole, allowance.time).map((each) => each.kind) : [],
    plainShorter: first.plain !== null && first.plain.rawHigh < 0,
    today: saidToday(record, step),
    predicted: () =>
      foretold(
        world,
        powerOf({
          ...start,
          stepIndex: step,
          others: othersThan(world, step),
          selectionAllowance: allowance.time,
          steer,
        }),
      ),
  };
}

function foretold(world: World, power: Power | null): number {
  const tenth = Math.abs((world.change[0] ?? 0) - Math.log(0.9)) < 1e-9;
  const sizes = tenth ? power?.tenth : power?.fifth;
  return (world.window === 40 ? sizes?.forty.chance : sizes?.twenty.chance) ?? NaN;
}

/** Whichever step was picked is the practised one: what the world holds for the practised step happens there. */
function moveChange(record: SimulatedRecord, world: World, step: number): void {
  record.window.forEach((period, at) => {
    if (period === 0) return;
    const change = (world.change[period - 1] ?? 0) - world.restChange;
    record.y[world.practised]![at]! -= change;
    record.y[step]![at]! += change;
  });
}

/** All steps take the reference set equally long in these worlds. */
const REFERENCE_SECONDS = 60;

/** With the factor of each step's adjusted times, as the screens have it. */
const referenceSeconds = ({ adjusted, fits }: BaselineModel): Float64Array =>
  Float64Array.from(adjusted, (row, step) => {
    const taken = fits.get(step)?.adjusted ?? row;
    const at = row.findIndex(Number.isFinite);
    return REFERENCE_SECONDS * Math.exp((row[at] ?? 0) - (taken[at] ?? 0));
  });

function allowanceFor(
  world: World,
  model: BaselineModel,
  { list, columns }: BaselineArrays,
  seed: number,
): SelectionAllowance {
  if (world.picked === 'not') return { time: 0, spread: 0 };
  return atOnce(
    allowingForSelection({
      ...model,
      candidates: [...model.adjusted.keys()],
      apart: toldApart(model, columns),
      view: world.picked,
      referenceMedians: referenceSeconds(model),
      list,
      seed,
    }),
  );
}

function pick(
  view: 'seconds' | 'spread' | 'reference',
  model: BaselineModel,
  { list, columns }: BaselineArrays,
): number {
  const once = new Int32Array(1 + Math.max(...list)).fill(1);
  const sample = (row: Float64Array) => sortedSample(row.map(Math.exp), list);
  const apart = toldApart(model, columns);
  const reference = referenceSeconds(model);
  const values = model.adjusted.map((row, step) => {
    const ranked = { adjusted: sample(row), recorded: sample(model.recorded[step]!), apart: apart[step]! };
    return viewValue(ranked, once, view, reference[step]!);
  });
  return values.indexOf(Math.max(...values));
}

/** For which steps a recorded fact shows: rank-sum tests of times as recorded, one Benjamini–Hochberg family, as patterns are. */
function toldApart({ recorded }: BaselineModel, columns: readonly Float64Array[]): boolean[] {
  const tests = recorded.flatMap((row, step) =>
    columns.flatMap((column) => {
      const middle = (Math.min(...column) + Math.max(...column)) / 2;
      const group = (above: boolean) =>
        row.filter((value, at) => Number.isFinite(value) && column[at]! > middle === above);
      const [longer, others] = [group(true), group(false)];
      return Math.min(longer.length, others.length) < 5 ? [] : [{ step, p: wilcoxonRankSum(longer, others).p }];
    }),
  );
  const { rejected } = benjaminiHochberg(
    tests.map(({ p }) => p),
    0.1,
  );
  return recorded.map((_, step) => tests.some((test, at) => test.step === step && rejected[at]));
}

const othersThan = (world: World, step: number) => [...Array(world.steps).keys()].filter((other) => other !== step);

function startOf({ y, columns, window, list }: SimulatedRecord) {
  const n = window.filter((period) => period === 0).length;
  return { y: y.map((row) => row.slice(0, n)), columns: columns.map((row) => row.slice(0, n)), list: list.slice(0, n) };
}

/** Cases come in order of their periods, so the first so many are those of the first windows. */
function upTo(input: ChangeInput, windows: number): ChangeInput {
  const n = input.window.filter((period) => period <= windows).length;
  return {
    ...input,
    windows,
    y: input.y.map((row) => row.slice(0, n)),
    columns: input.columns.map((row) => row.slice(0, n)),
    window: input.window.slice(0, n),
    list: input.list.slice(0, n),
  };
}

/** All windows as one. */
const asOne = (input: ChangeInput): ChangeInput => ({
  ...input,
  windows: 1,
  window: input.window.map((period) => Math.min(period, 1)),
});
