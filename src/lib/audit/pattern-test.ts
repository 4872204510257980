import { spearman, wilcoxonRankSum } from '../statistics';
import { groupEffect, shrunk, type GroupEffect } from './group-effect';
import { listMeans } from './list-means';
import { overTime } from './over-time';
import type { Factor } from './pattern-factors';
import { auditThresholds } from './thresholds';
import type { Pattern } from './types';

/** One test of the family: its p value, and its effect, worked out only if the test stands. */
export type PatternTest = {
  stepId: string;
  factor: string;
  kind: Pattern['kind'];
  label: string;
  earlierStepId: string | null;
  factId: string | null;
  nWith: number;
  nWithout: number;
  p: number;
  effect: () => GroupEffect;
  /** Of a yes/no fact or a level of the eye: which cases have it, which are compared. */
  eyes?: { levels: readonly string[]; withIt: readonly number[]; without: readonly number[] };
};

type Lists = { list: Int32Array; listCount: number; orderKnown: boolean };

/**
 * Rank-sum test of a factor (rank correlation for a number). What is constant within each list is tested on list means.
 *
 * @param log ln(adjusted seconds) of the step, NaN where absent.
 * @returns `null` where there are fewer than five cases from three lists on either side.
 */
export function factorTest(stepId: string, factor: Factor, log: Float64Array, lists: Lists): PatternTest | null {
  const places = (wanted: number) =>
    [...factor.group.keys()].filter((place) => factor.group[place] === wanted && !Number.isNaN(log[place]));
  const [withIt, without] = [places(1), places(0)];
  if (!enough(withIt, lists.list) || !enough(without, lists.list)) return null;
  const [x, y] = constantWithinLists([...withIt, ...without], factor.group, lists.list)
    ? [ofLists(log, withIt, lists), ofLists(log, without, lists)]
    : [pick(log, withIt), pick(log, without)];
  const both = [...withIt, ...without];
  const p = factor.values ? spearman(pick(factor.values, both), pick(log, both)).p : wilcoxonRankSum(x, y).p;
  const { id, kind, label, factId, levels } = factor;
  return {
    stepId,
    factor: id,
    kind,
    label,
    earlierStepId: null,
    factId,
    nWith: withIt.length,
    nWithout: without.length,
    p,
    effect: () => groupEffect(x, y),
    ...(levels ? { eyes: { levels, withIt, without } } : {}),
  };
}

/** Change over the cases shown: rank correlation of list means with place in time, size by the Theil–Sen slope. */
export function changeTest(stepId: string, log: Float64Array, lists: Lists): PatternTest | null {
  const means = listMeans(log, lists.list, lists.listCount);
  const n = log.filter((value) => !Number.isNaN(value)).length;
  if (!lists.orderKnown || means.value.length < auditThresholds.trendLists) return null;
  const span = log.length / 20;
  return {
    stepId,
    factor: 'over-time',
    kind: 'over-time',
    label: `from the first to the latest of these ${log.length} cases`,
    earlierStepId: null,
    factId: null,
    nWith: Math.floor(n / 2),
    nWithout: n - Math.floor(n / 2),
    p: spearman(means.place, means.value).p,
    effect: () => {
      const trend = overTime(log.map(Math.exp), lists);
      if (!trend) return { ratio: 1, low: 1, high: 1, raw: 1 };
      return shrunk(span * Math.log(trend.ratio), span * Math.log(trend.low), span * Math.log(trend.high));
    },
  };
}

function enough(places: readonly number[], list: Int32Array): boolean {
  const lists = new Set(places.map((place) => list[place]));
  return places.length >= auditThresholds.patternGroup && lists.size >= auditThresholds.patternLists;
}

/** Lists of one case are constant in everything: they are cases, not a reason to take means. */
function constantWithinLists(places: readonly number[], group: Int8Array, list: Int32Array): boolean {
  const seen = new Map<number, number>();
  let repeated = false;
  for (const place of places) {
    const before = seen.get(list[place]!);
    if (before !== undefined && before !== group[place]) return false;
    repeated ||= before !== undefined;
    seen.set(list[place]!, group[place]!);
  }
  return repeated;
}

const pick = (values: Float64Array, places: readonly number[]) => Float64Array.from(places, (place) => values[place]!);

function ofLists(log: Float64Array, places: readonly number[], { list, listCount }: Lists): Float64Array {
  const only = new Float64Array(log.length).fill(NaN);
  for (const place of places) only[place] = log[place]!;
  return listMeans(only, list, listCount).value;
}
