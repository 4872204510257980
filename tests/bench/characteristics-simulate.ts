import { randomStream, type RandomStream } from '../../src/lib/statistics';
import { windowCases, type World } from './characteristics-worlds';

/** One surgeon's record in a world, as the core takes it. Cases in order; NaN where a step is missing. */
export type SimulatedRecord = {
  /** ln seconds, [step][case] */
  y: Float64Array[];
  columns: Float64Array[];
  window: Int32Array;
  list: Int32Array;
  windows: number;
};

/** Effects of the recorded facts on every step, log scale: a dense nucleus and a small pupil. */
const DENSE = 0.3;
const PUPIL = 0.12;
const MORE = 0.2;
const MORE_OFTEN = 0.3;

/** Outliers are long: the step went wrong. Added to the noise of 5 % of step times, in its SDs, times |normal|. */
const OUTLIER = 4;

export function simulate(world: World, seed: number, run: number): SimulatedRecord {
  const stream = randomStream(seed, ...codes(world.name), run);
  const windows = 1 + world.following;
  const length = windowCases(world);
  const cases = world.start + windows * length;
  const window = Int32Array.from({ length: cases }, (_, at) => Math.max(0, Math.ceil((at + 1 - world.start) / length)));
  const list = Int32Array.from({ length: cases }, (_, at) => listOf(world, at));
  const lists = 1 + Math.max(...list);
  const normals = (count: number) => Float64Array.from({ length: count }, () => stream.normal());
  const ofList = normals(lists);
  const ofStepList = Array.from({ length: world.steps }, () => normals(lists));
  const y = Array.from({ length: world.steps }, () => new Float64Array(cases));
  const dense = new Float64Array(cases);
  const pupil = new Float64Array(cases);
  const more = Array.from({ length: world.moreFacts }, () => new Float64Array(cases));
  for (let at = 0; at < cases; at += 1) {
    const period = window[at] ?? 0;
    const later = period > 0 ? 1 : 0;
    dense[at] = stream.uniform() < world.dense[later]! ? 1 : 0;
    pupil[at] = stream.uniform() < world.pupil[later]! ? 1 : 0;
    for (const fact of more) fact[at] = stream.uniform() < MORE_OFTEN ? 1 : 0;
    const shared = world.caseSd * stream.normal() + world.listSd * ofList[list[at]!]!;
    const place = at - list.indexOf(list[at]!);
    const seen =
      DENSE * dense[at]! +
      PUPIL * pupil[at]! +
      MORE * more.reduce((sum, fact) => sum + fact[at]!, 0) +
      driftAt(world, at / cases) +
      world.position * placeEffect(place, world.listSize);
    for (let step = 0; step < world.steps; step += 1) {
      const own = step === world.practised;
      const change =
        period === 0
          ? 0
          : own
            ? (world.change[period - 1] ?? 0)
            : step === 0
              ? world.restChange + world.otherChange
              : world.restChange + (step === world.practised + 1 ? world.nextChange : 0);
      const sd = own && world.ownSd ? (later ? world.ownSd.window : world.ownSd.start) : world.sd;
      const value =
        baseOf(world, step) +
        (own ? world.level : 0) +
        (own ? world.loading : 1) * shared +
        world.stepListSd * ofStepList[step]![list[at]!]! +
        seen +
        change +
        sd * noise(world, stream);
      y[step]![at] = stream.uniform() < world.missing && !own ? NaN : value;
    }
  }
  return { y, columns: [dense, pupil, ...more], window, list, windows };
}

/** The windows begin with a new list. */
function listOf(world: World, at: number): number {
  const startLists = Math.ceil(world.start / world.listSize);
  if (at < world.start) return Math.floor(at / world.listSize);
  return startLists + Math.floor((at - world.start) / world.listSize);
}

function baseOf(world: World, step: number): number {
  if (world.lengths === 'equal') return Math.log(60);
  return Math.log(10) + (step / (world.steps - 1)) * Math.log(30);
}

function driftAt(world: World, share: number): number {
  return world.wave ? world.drift * Math.sin(4 * Math.PI * share) : world.drift * share;
}

const placeEffect = (place: number, size: number) => (place === 0 ? 1 : place >= (2 * size) / 3 ? 0.5 : 0);

function noise(world: World, stream: RandomStream): number {
  const base = world.skewed ? -Math.log(1 - stream.uniform()) - 1 : stream.normal();
  return stream.uniform() < world.outliers ? base + OUTLIER * Math.abs(stream.normal()) : base;
}

/** A path of whole numbers from a name, so that a world's numbers do not depend on which others run. */
const codes = (name: string) => [...name].map((letter) => letter.charCodeAt(0));
