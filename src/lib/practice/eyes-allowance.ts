import { auditThresholds } from '../audit';
import { drawnOf, sortedSample, summariseLevel, type SortedSample } from '../audit/sorted-sample';
import { drawListCounts, drawUnits, median } from '../statistics';
import type { Work } from '../turns';
import { allowanceFrom, standing, type SelectionAllowance } from './selection-allowance';
import { practiceThresholds as set } from './thresholds';

/** One fact of the eye at one level: which cases have it. */
export type EyeGroupArrays = {
  /** One a case: 1 with, 0 the commonest level it is compared with, −1 neither. */
  group: Int8Array;
  /** ln step times, every other fact of the eye taken out, [step][case]; NaN where absent. */
  log: readonly Float64Array[];
};

export type EyesAllowanceInput = {
  /** All cases of the time of the start, whatever their eyes: ln step times as recorded, [step][case]. */
  recorded: readonly Float64Array[];
  /** d of every step against its own rest, facts of the eye taken out, [step][case]. */
  differences: readonly Float64Array[];
  groups: readonly EyeGroupArrays[];
  /** Steps that could have been named, in the order of the operation. */
  candidates: readonly number[];
  list: Int32Array;
  seed: number;
  resamples?: number;
};

/** A few milliseconds. */
const RESAMPLES_A_SLICE = 25;

/**
 * What the start of a goal aimed at certain eyes owes to having been picked: in each resample of the lists the pair of
 * step and fact with the highest sum (share of cases × recorded median without it × (ratio beyond what the fact does at
 * the other steps − 1)), without test or least ratio; how much longer, or more varied, that step is among those eyes in
 * the resample than in the record. 1.5 × the mean, not below 0, as for a step picked by itself. Hands
 * over between slices with the share done, 0..1.
 */
export function* allowingForEyes(input: EyesAllowanceInput): Work<SelectionAllowance> {
  const { unit: list, count: groups } = drawUnits(input.list, auditThresholds.listsToDraw);
  const pairs = pairsOf(input, list);
  const gains = { time: 0, spread: 0, counted: 0 };
  const resamples = pairs.length === 0 ? 0 : (input.resamples ?? set.selectionAllowanceResamples);
  for (let resample = 0; resample < resamples; resample += 1) {
    if (resample % RESAMPLES_A_SLICE === 0) yield resample / resamples;
    const counts = drawListCounts(groups, resample, input.seed);
    const chosen = highest(pairs, counts);
    const now = chosen && standing(chosen.among, counts, list);
    if (!chosen?.before || !now) continue;
    gains.time += now.location - chosen.before.location;
    gains.spread += now.logSpread - chosen.before.logSpread;
    gains.counted += 1;
  }
  return allowanceFrom(gains);
}

type Pair = {
  group: number;
  candidate: boolean;
  withIt: SortedSample;
  without: SortedSample;
  recordedWithout: SortedSample;
  all: SortedSample;
  /** d among these eyes; NaN elsewhere. */
  among: Float64Array;
  before: ReturnType<typeof standing>;
};

/** Every step with every kind of eye that the suggestion could have named: with cases and lists enough in the record. */
function pairsOf(input: EyesAllowanceInput, list: Int32Array): Pair[] {
  const sample = (values: Float64Array, within: (at: number) => boolean) =>
    sortedSample(
      values.map((value, at) => (within(at) ? Math.exp(value) : NaN)),
      list,
    );
  return input.groups.flatMap(({ group, log }, at) =>
    log.flatMap((own, step): Pair[] => {
      const recorded = input.recorded[step] ?? new Float64Array(group.length).fill(NaN);
      const withIt = sample(own, (place) => group[place] === 1);
      const lists = new Set(withIt.list).size;
      if (withIt.seconds.length < set.pairCases || lists < set.pairLists) return [];
      const among = (input.differences[step] ?? new Float64Array(group.length)).map((value, place) =>
        group[place] === 1 ? value : NaN,
      );
      return [
        {
          group: at,
          candidate: input.candidates.includes(step),
          withIt,
          without: sample(own, (place) => group[place] === 0),
          recordedWithout: sample(recorded, (place) => group[place] === 0),
          all: sample(recorded, () => true),
          among,
          before: standing(among, null, list),
        },
      ];
    }),
  );
}

const level = { median: 0, p20: 0 };
const medianOf = (sample: SortedSample, counts: Int32Array) =>
  summariseLevel(sample, counts, level) ? level.median : NaN;

/** The pair with the highest sum in one resample; ties go to the earlier one. */
function highest(pairs: readonly Pair[], counts: Int32Array): Pair | null {
  const ratios = pairs.map((pair) => medianOf(pair.withIt, counts) / medianOf(pair.without, counts));
  let best: Pair | null = null;
  let most = -Infinity;
  pairs.forEach((pair, at) => {
    if (!pair.candidate) return;
    const elsewhere = ratios.filter(
      (ratio, other) => other !== at && pairs[other]?.group === pair.group && Number.isFinite(ratio),
    );
    if (elsewhere.length === 0) return;
    const beyond = ratios[at]! / median(elsewhere);
    const without = medianOf(pair.recordedWithout, counts);
    const sum = (drawnOf(pair.withIt, counts) / drawnOf(pair.all, counts)) * without * (beyond - 1);
    if (!(sum > most)) return;
    most = sum;
    best = pair;
  });
  return best;
}
