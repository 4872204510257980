import type { ChartSeries } from '../../practice';
import type { Case, Reflection } from '../../model';
import { canBeWatched } from '../../audit';
import { lanesOf, neverAsked, notAsked, type Lane, type RunCaseView } from './run-lanes';

export type RunView = {
  title: string;
  reading: string;
  cases: readonly RunCaseView[];
  periods: readonly {
    id: string;
    label: string;
    shape: 'open-circle' | 'filled-circle' | 'open-square';
    median: number | null;
    named: boolean;
    mayShorten: boolean;
  }[];
  limits: { low: number; high: number } | null;
  /** What belongs to the cases, drawn beneath them: only what is known of at least one of them. */
  lanes: readonly Lane[];
  key: string;
  table: { columns: { label: string; number?: boolean; method?: 'run-chart' | 'events' }[]; rows: string[][] };
};

export type RunSource = {
  series: ChartSeries;
  title: string;
  baselineIds: readonly string[];
  /** The windows drawn, first one first. */
  windows: readonly (readonly string[])[];
  /** How many of them are full: medians are drawn over those alone. */
  full: number;
  length: number;
  cases: readonly Case[];
  procedureId: string;
  reflections: readonly Reflection[];
  /** What is said of a case beside its place in the run: its time as recorded, its eye. Nothing where the run goes out. */
  detail?: (one: Case) => string;
};

/** The run of cases with everything beneath it. Medians and limits only where a window is full. */
export function runView(source: RunSource): RunView {
  const { series, baselineIds, windows, full } = source;
  const periods = [baselineIds, ...windows].map((ids, index) => periodCases(ids, index > 0, source));
  const points = new Map(series.points.map((point) => [point.caseId, point]));
  const noted = new Set(source.reflections.flatMap(({ caseIds }) => caseIds));
  const median = (period: number) => {
    const found = series.medians.find((each) => each.period === period);
    return found && period > 0 && period <= full ? found.percent / 100 : null;
  };
  const against = series.basis === 'against' ? 'against the rest of the operation' : 'this step alone';
  const cases = periods.flatMap((own, period) =>
    own.map((each): RunCaseView => {
      const point = points.get(each.id);
      return {
        id: each.id,
        code: each.code,
        period,
        ratio: point ? point.percent / 100 : null,
        leftOut: each.leftOut !== null,
        list: each.listId,
        note: noted.has(each.id),
        events: each.events === null ? 'not-answered' : each.events.length > 0 ? 'event' : 'none',
        said: [saidOf(each, point?.percent ?? null, against, point?.look ?? false), source.detail?.(each)]
          .filter(Boolean)
          .join('; '),
      };
    }),
  );
  return {
    title: source.title,
    reading: [
      `100 = the median of your baseline cases, adjusted for the eye; ${against}. Up is longer.`,
      ...notAsked(cases),
    ].join(' '),
    cases,
    periods: periods.map((own, period) => ({
      id: String(period),
      label: labelOf(period, own.length, source, full),
      shape: period === 0 ? 'open-circle' : period === 1 ? 'filled-circle' : 'open-square',
      median: median(period),
      named: period === 1,
      mayShorten: period === 0,
    })),
    limits: full > 0 && series.limits ? { low: series.limits.low / 100, high: series.limits.high / 100 } : null,
    lanes: lanesOf(cases, ['lists', 'notes', 'events']),
    key: keyOf(cases, full, periods.flat().some(canBeWatched)),
    table: {
      columns: [
        { label: 'Case' },
        { label: 'Part' },
        { label: 'Of the baseline median, %', number: true, method: 'run-chart' },
        { label: 'Note' },
        { label: 'Events', method: 'events' },
      ],
      rows: cases.map(({ code, period, ratio, leftOut, note, events }) => [
        code,
        labelOf(period, periods[period]?.length ?? 0, source, full),
        leftOut ? 'left out' : ratio === null ? 'cannot be said' : String(Math.round(ratio * 100)),
        note ? 'yes' : '',
        { event: 'event', 'not-answered': 'not answered', none: 'none' }[events],
      ]),
    },
  };
}

/** The cases of a period in order, with those left out of its span at their place. */
function periodCases(ids: readonly string[], isWindow: boolean, { cases, procedureId }: RunSource): Case[] {
  const wanted = new Set(ids);
  const own = cases.filter(({ id }) => wanted.has(id));
  const sequences = own.map(({ sequence }) => sequence);
  const [first, last] = [Math.min(...sequences), Math.max(...sequences)];
  return cases
    .filter(
      (each) =>
        wanted.has(each.id) ||
        (isWindow &&
          each.procedureId === procedureId &&
          each.leftOut !== null &&
          each.sequence >= first &&
          each.sequence <= last),
    )
    .sort((a, b) => a.sequence - b.sequence);
}

/** Name of a full window, 1 for the first; `length`: its cases. */
export function windowLabel(period: number, length: number): string {
  if (period === 1) return length === 40 ? 'next forty' : 'next twenty';
  return period === 2 ? 'following 20' : `following 20 (${period - 1})`;
}

function labelOf(period: number, count: number, { length }: RunSource, full: number): string {
  if (period === 0) return `baseline ${count}`;
  if (period <= full) return windowLabel(period, length);
  return period === 1 ? `${windowLabel(1, length)}, so far ${count}` : `following, so far ${count}`;
}

function saidOf(each: Case, percent: number | null, against: string, look: boolean): string {
  if (each.leftOut) return 'left out';
  if (percent === null) return 'cannot be compared';
  return `${Math.round(percent)} per cent of the baseline median, ${against}${look ? `; far from the others: look at this ${canBeWatched(each) ? 'recording' : 'case'}` : ''}`;
}

function keyOf(cases: readonly RunCaseView[], full: number, recorded: boolean): string {
  return [
    ...(neverAsked(cases) ? [] : ['E event · ? not answered · blank: answered, none']),
    cases.some(({ leftOut }) => leftOut) ? '× left out' : '',
    cases.some(({ note }) => note) ? 'stroke: a note was written' : '',
    full > 0 ? `thick line: median · dashed: beyond it, look at the ${recorded ? 'recording' : 'case'}` : '',
  ]
    .filter(Boolean)
    .join(' · ');
}
