import { allowingForEyes, type EyeGroupArrays } from '../../src/lib/practice/eyes-allowance';
import { atOnce } from '../../src/lib/turns';
import { baselineModel, medianAndP20, type BaselineModel } from '../../src/lib/practice/baseline-model';
import type { ChangeInput } from '../../src/lib/practice/change';
import { excessOf, judgeAimed, type SuchEyes } from '../../src/lib/practice/judge-aimed';
import { powerOf } from '../../src/lib/practice/power';
import { median, randomStream } from '../../src/lib/statistics';
import type { Said } from './characteristics-judge';
import { simulate, type SimulatedRecord } from './characteristics-simulate';
import { saidToday } from './characteristics-today';
import type { World } from './characteristics-worlds';

/** Of the columns: a dense nucleus, then a small pupil, then the others. */
const PUPIL = 1;
const LEAST_CASES = 20;

/** One run of a goal aimed at certain eyes. `null`: too few such eyes for one. */
export function aimedRun(world: World, seed: number, run: number): Said | null {
  const aimed = world.aimed!;
  const record = simulate(world, seed, run);
  const practised = { step: world.practised, fact: PUPIL };
  if (!aimed.picked) makeLonger(record, world);
  const { step, fact } = aimed.picked ? pickedPair(world, record) : practised;
  const own = record.columns[fact]!;
  const freely = calledFreely(record, own, aimed.calledFreely, randomStream(seed, 77, run));
  const such = [...own.keys()].filter((at) => own[at] === 1 || freely.has(at));
  const start = such.filter((at) => record.window[at] === 0).slice(-aimed.cases);
  const window = firstTwenty(
    such.filter((at) => record.window[at] === 1),
    record.list,
  );
  if (start.length < LEAST_CASES || window.length < LEAST_CASES) return null;
  // From the first baseline case on; the pool the pair is picked in.
  const pool = [...own.keys()].filter((at) => record.window[at] === 0 && at >= start[0]!);
  const during = [...own.keys()].filter((at) => record.window[at] === 1 && at <= window.at(-1)!);
  const share = (places: readonly number[]): SuchEyes => ({
    such: places.filter((at) => own[at] === 1 || freely.has(at)).length,
    of: places.length,
  });
  const excess = aimed.bounded ? excessOf(share(pool), share(during)) : 0;
  const others = [...Array(world.steps).keys()].filter((other) => other !== step);
  const columns = record.columns.filter((_, column) => column !== fact);
  const input: ChangeInput = {
    ...among(record, columns, [...start, ...window]),
    windows: 1,
    stepIndex: step,
    others,
    listsKnown: true,
  };
  const begun = among(record, columns, start);
  const model = baselineModel(begun, (each) => [...Array(world.steps).keys()].filter((other) => other !== each));
  const allowance = aimed.picked && aimed.allowed ? pairAllowance(world, record, pool, seed + run) : 0;
  const level = medianAndP20(model.adjusted[step]!);
  const steer = level ? Math.log((level.median + level.p20) / 2 / level.median) : null;
  const { time } = judgeAimed(input, { selectionAllowance: allowance, steer, look: 'first' }, excess);
  return {
    step,
    allowance,
    kind: time.kind,
    lasting: [],
    plainShorter: time.plain !== null && time.plain.rawHigh < 0,
    today: saidToday({ ...record, y: input.y as Float64Array[], window: input.window }, step),
    predicted: () =>
      powerOf({ ...begun, stepIndex: step, others, selectionAllowance: allowance, steer, aimed: aimed.bounded })?.fifth
        .twenty.chance ?? NaN,
  };
}

/** In small pupils the practised step takes longer by more than every step does; in the window perhaps by less. */
function makeLonger({ y, columns, window }: SimulatedRecord, { aimed, practised }: World): void {
  columns[PUPIL]!.forEach((small, at) => {
    if (small === 1) y[practised]![at]! += window[at] === 0 ? aimed!.beyond : aimed!.beyondLater;
  });
}

/** Cases of the window that are called such eyes and are not: so many that they are this share of those called so. */
function calledFreely(
  { window }: SimulatedRecord,
  own: Float64Array,
  share: number,
  stream: ReturnType<typeof randomStream>,
): Set<number> {
  const later = [...own.keys()].filter((at) => window[at] === 1);
  const such = later.filter((at) => own[at] === 1).length;
  const chance = (such * share) / (1 - share) / Math.max(1, later.length - such);
  return new Set(later.filter((at) => own[at] === 0 && stream.uniform() < chance));
}

/** The first twenty over at least four lists. */
function firstTwenty(such: readonly number[], list: Int32Array): number[] {
  const end = such.findIndex(
    (_, at) => at + 1 >= LEAST_CASES && new Set(such.slice(0, at + 1).map((place) => list[place])).size >= 4,
  );
  return end === -1 ? [] : such.slice(0, end + 1);
}

function among({ y, window, list }: SimulatedRecord, columns: readonly Float64Array[], places: readonly number[]) {
  const at = <T extends Float64Array | Int32Array>(row: T) => row.filter((_, place) => places.includes(place)) as T;
  return { y: y.map(at), columns: columns.map(at), window: at(window), list: at(list) };
}

function groupsOf(model: BaselineModel, columns: readonly Float64Array[]): EyeGroupArrays[] {
  return columns.map((column, place) => ({
    group: Int8Array.from(column),
    log: model.adjusted.map((row, step) =>
      row.map((value, at) => value + (model.fits.get(step)?.facts[place] ?? 0) * column[at]!),
    ),
  }));
}

function poolOf(world: World, record: SimulatedRecord, places: readonly number[]) {
  const arrays = among(record, record.columns, places);
  const model = baselineModel(arrays, (each) => [...Array(world.steps).keys()].filter((other) => other !== each));
  return { arrays, model, groups: groupsOf(model, arrays.columns) };
}

function pairAllowance(world: World, record: SimulatedRecord, pool: readonly number[], seed: number): number {
  const { arrays, model, groups } = poolOf(world, record, pool);
  return atOnce(
    allowingForEyes({
      recorded: arrays.y,
      differences: model.differences,
      groups,
      candidates: [...Array(world.steps).keys()],
      list: arrays.list,
      seed,
    }),
  ).time;
}

/** The step and fact with the highest sum over the whole start, as a suggestion would name them, without any test. */
function pickedPair(world: World, record: SimulatedRecord): { step: number; fact: number } {
  const places = [...record.list.keys()].filter((at) => record.window[at] === 0);
  const { arrays, groups } = poolOf(world, record, places);
  const found = groups.flatMap(({ group, log }, fact) => {
    const of = (row: Float64Array, wanted: number) => median(row.filter((_, at) => group[at] === wanted));
    const ratios = log.map((row) => Math.exp(of(row, 1) - of(row, 0)));
    return ratios.map((ratio, step) => {
      const elsewhere = median(ratios.filter((_, other) => other !== step));
      const without = Math.exp(of(arrays.y[step]!, 0));
      const share = group.filter((each) => each === 1).length / group.length;
      return { step, fact, sum: share * without * (ratio / elsewhere - 1) };
    });
  });
  return found.reduce((best, each) => (each.sum > best.sum ? each : best));
}
