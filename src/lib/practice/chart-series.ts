import { amongEyes } from '../audit';
import { individualsLimits, median, runChart, type RunChart } from '../statistics';
import { cannot, type Cannot } from './cannot';
import { caseArrays, type CaseArrays } from './case-arrays';
import { changeOf } from './change';
import { changeInput } from './judge-cases';
import type { LastingInput } from './lasting-for';
import { casesWithIds } from './span';
import { practiceThresholds as set } from './thresholds';

export type ChartPoint = {
  caseId: string;
  code: string;
  /** 0 for baseline cases, 1 for the window, 2 … for the following windows. */
  period: number;
  /** Number of the list, in order: to draw where lists begin and end. */
  list: number;
  /** Per cent of the baseline median. */
  percent: number;
  /** Outside three sigmas of the baseline cases: "look at this recording". */
  look: boolean;
};

export type ChartSeries = {
  kind: 'series';
  /** `against`: this step against the rest of the operation; `plain`: this step alone, where there is no rest. */
  basis: 'against' | 'plain';
  points: ChartPoint[];
  /** Of each period, in order; the start's is 100. */
  medians: { period: number; n: number; percent: number }[];
  /** Three sigmas of the baseline cases, per cent; `null` with fewer than 20 of them or an unknown order. */
  limits: { low: number; high: number } | null;
  /** Run rules on start and first window together; `null` before there are 24 useful cases or without a full window. */
  signals: RunChart | null;
};

export type ChartInput = Omit<LastingInput, 'baseline'> & {
  baseline: Pick<LastingInput['baseline'], 'caseIds' | 'frozen'>;
  /** Draw this step alone even where there is a rest to compare with. */
  plain?: boolean;
};

/**
 * Points of the run chart: what the result judges, as per cent of the baseline median, facts of the eye taken out by the
 * model frozen with the start. Pass full windows only: while one is filling nothing of it is drawn.
 */
export function chartSeries(input: ChartInput): ChartSeries | Cannot<{ code: 'no-baseline' }> {
  const windows = input.windows.map((ids) => casesWithIds(input.cases, ids));
  const baseline = casesWithIds(input.cases, input.baseline.caseIds);
  const { frozen } = input.baseline;
  const arrays = caseArrays(
    [...baseline, ...windows.flat()],
    amongEyes(input.procedure, input.eyes),
    input.lists,
    input.stepId,
    {
      frozen,
      underGoal: input.underGoal,
    },
  );
  const change = changeInput(arrays, windows);
  const own = arrays.y[arrays.stepIndex] ?? new Float64Array(0);
  const { against, difference } = changeOf(change);
  const basis = input.plain || against.kind === 'cannot' ? 'plain' : 'against';
  const values = withoutEye(basis === 'against' ? difference : own, arrays, frozen?.coefficients ?? []);
  const atStart = present(values, change.window, 0);
  if (atStart.length === 0) return cannot({ code: 'no-baseline' });
  const centre = median(atStart);
  const percent = (value: number) => 100 * Math.exp(value - centre);
  const ordered = arrays.table.orderKnown;
  const sigmas = ordered && atStart.length >= set.startAtLeast ? individualsLimits(atStart) : null;
  const judged = [...atStart, ...present(values, change.window, 1)];
  const run = ordered && windows.length > 0 ? runChart(judged, centre) : null;
  return {
    kind: 'series',
    basis,
    points: arrays.table.cases.flatMap((one, at) => {
      const value = values[at] ?? NaN;
      if (!Number.isFinite(value)) return [];
      const look = sigmas !== null && (value < sigmas.low || value > sigmas.high);
      return [
        {
          caseId: one.id,
          code: one.code,
          period: change.window[at] ?? 0,
          list: arrays.list[at] ?? 0,
          percent: percent(value),
          look,
        },
      ];
    }),
    medians: Array.from({ length: windows.length + 1 }, (_, period) => present(values, change.window, period)).flatMap(
      (row, period) => (row.length > 0 ? [{ period, n: row.length, percent: percent(median(row)) }] : []),
    ),
    limits: sigmas && { low: percent(sigmas.low), high: percent(sigmas.high) },
    signals: run && run.useful >= set.chartSignalsFrom ? run : null,
  };
}

function withoutEye(
  values: Float64Array,
  { columns }: Pick<CaseArrays, 'columns'>,
  coefficients: readonly number[],
): Float64Array {
  return values.map((value, at) =>
    columns.reduce((left, column, index) => left - (coefficients[index] ?? 0) * (column[at] ?? 0), value),
  );
}

const present = (values: Float64Array, window: Int32Array, period: number) =>
  values.filter((value, at) => window[at] === period && Number.isFinite(value));
