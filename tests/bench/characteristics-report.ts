import { wilsonInterval } from '../published/comparison/wilson-interval';
import type { Said } from './characteristics-judge';
import { RIGHT, type Count, type Row } from './characteristics-rows';

/** One count of a world: the share, its 95 % Monte-Carlo interval (Wilson), the bar and whether it is missed. */
export type Measured = {
  world: string;
  says: string;
  count: string;
  n: number;
  share: number;
  low: number;
  high: number;
  atMost: number | null;
  atLeast: number | null;
  /** Missed only when the whole interval lies beyond the bar. */
  missed: boolean;
};

/** What people do today said, and this step alone, in the same runs; shares. */
export type Beside = {
  mean: number;
  welch: number;
  rank: number;
  chart: number;
  chartEither: number;
  plain: number;
  /** `null` where no change of the step alone is there to be found. */
  predicted: number | null;
};

/** `beside` is `null` where people have no rule of their own to set beside it. */
export type Report = { counts: Measured[]; beside: Beside | null };

export function reportOf(row: Row, said: readonly Said[]): Report {
  return { counts: countsOf(row, said), beside: besideOf(row, said) };
}

export const countsOf = <S>(row: Row<S>, said: readonly S[]): Measured[] =>
  row.counts.map((count) => measured(row, count, said));

function measured<S>({ world }: Row<S>, count: Count<S>, said: readonly S[]): Measured {
  const answers = said.map(count.of).filter((answer) => answer !== null);
  const n = answers.length;
  const hits = answers.filter(Boolean).length;
  const { low, high } = n > 0 ? wilsonInterval(hits, n) : { low: 0, high: 1 };
  return {
    world: world.name,
    says: world.says,
    count: count.label,
    n,
    share: n > 0 ? hits / n : 0,
    low,
    high,
    atMost: count.atMost ?? null,
    atLeast: count.atLeast ?? null,
    missed:
      n === 0 ||
      (count.atMost !== undefined && low > count.atMost) ||
      (count.atLeast !== undefined && high < count.atLeast),
  };
}

function besideOf({ counts }: Row, said: readonly Said[]): Beside {
  const share = (of: (one: Said) => number) => said.reduce((sum, one) => sum + of(one), 0) / Math.max(1, said.length);
  return {
    mean: share((one) => Number(one.today.mean)),
    welch: share((one) => Number(one.today.welch)),
    rank: share((one) => Number(one.today.rank)),
    chart: share((one) => Number(one.today.chart)),
    chartEither: share((one) => Number(one.today.chartEither)),
    plain: share((one) => Number(one.plainShorter)),
    predicted: counts.some(({ label }) => label === RIGHT) ? share((one) => one.predicted()) : null,
  };
}

const HEAD = [
  'world',
  'counted',
  'runs',
  'per cent (95 %)',
  'bar',
  '',
  'mean −5 %',
  'Welch',
  'rank',
  'chart',
  'chart, either side',
  'step alone',
  'foretold',
];

/** A Markdown table; the ways people go about it today stand on a world's first line. */
export function tableOf(reports: readonly Report[]): string {
  const rows = reports.flatMap(({ counts, beside }) =>
    counts.map((one, at) => [
      at === 0 ? one.says : '',
      one.count,
      `${one.n}`,
      `${percent(one.share)} (${percent(one.low)} to ${percent(one.high)})`,
      one.atMost !== null ? `≤ ${percent(one.atMost)}` : one.atLeast !== null ? `≥ ${percent(one.atLeast)}` : '',
      one.missed ? 'MISSED' : '',
      ...(at === 0 && beside
        ? [beside.mean, beside.welch, beside.rank, beside.chart, beside.chartEither, beside.plain]
            .map(percent)
            .concat(one.count === RIGHT && beside.predicted !== null ? percent(beside.predicted) : '')
        : ['', '', '', '', '', '', '']),
    ]),
  );
  return [HEAD, HEAD.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

const percent = (share: number) => (100 * share).toFixed(1);
