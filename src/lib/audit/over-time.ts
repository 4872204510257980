import { theilSen } from '../statistics';
import { listMeans } from './list-means';
import { auditThresholds } from './thresholds';
import type { Interval, StepTable } from './types';

/** A trend in adjusted times: ratio per 20 cases with its 95 % interval. */
export type OverTime = Interval & { ratio: number };

/**
 * Change over time of one step: Theil–Sen slope of list means of ln(adjusted seconds) against place in time.
 *
 * @param adjusted of the latest 400 counted cases at most: all pairs of 20,000 would take minutes.
 * @returns `null` where the order is not known, or with too few lists for an interval that is closed on both sides.
 */
export function overTime(
  adjusted: Float64Array,
  table: Pick<StepTable, 'list' | 'listCount' | 'orderKnown'>,
): OverTime | null {
  if (!table.orderKnown) return null;
  const means = listMeans(adjusted.map(Math.log), table.list, table.listCount);
  if (means.value.length < auditThresholds.trendLists) return null;
  const { slope, low, high } = theilSen(means.place, means.value);
  const perTwenty = (value: number) => Math.exp(20 * value);
  if (!Number.isFinite(low) || !Number.isFinite(high)) return null;
  return { ratio: perTwenty(slope), low: perTwenty(low), high: perTwenty(high) };
}
