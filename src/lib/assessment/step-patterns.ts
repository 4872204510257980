import type { Audit, Pattern } from '../audit';
import { counted, listed } from '../words';

/** Below this the panel says that only very large differences would show. */
const PATTERN_CASES = 40;

export type PatternRowView = {
  id: string;
  label: string;
  under: string;
  ratio: number;
  low: number;
  high: number;
  words: string;
  bold: boolean;
};

export type StepPatterns = {
  lead: string;
  /** A fall or rise over time stands among the rows. */
  overTime: boolean;
  rows: readonly PatternRowView[];
  /** What was looked at and not clear. */
  looked: string | null;
  table: { columns: { label: string; number?: boolean; method?: 'patterns' }[]; rows: string[][] };
};

/** When a step takes longer: what stands, and what was looked at and not clear. */
export function stepPatterns(audit: Audit, stepId: string): StepPatterns {
  const shown = audit.patterns.filter((each) => each.stepId === stepId && each.shown);
  const looked = audit.lookedAt.find((each) => each.stepId === stepId)?.labels ?? [];
  const few =
    audit.caseIds.length < PATTERN_CASES
      ? ` With ${counted(audit.caseIds.length, 'case')} only very large differences would show.`
      : '';
  return {
    lead:
      (shown.length === 0
        ? looked.length === 0
          ? 'Too few cases to look at when this step takes longer.'
          : 'Nothing that was looked at goes clearly with a longer or shorter time.'
        : 'These go with a longer or shorter time. They need not be its cause.') + few,
    overTime: shown.some(({ kind }) => kind === 'over-time'),
    rows: shown.map(patternRow),
    looked: looked.length > 0 ? `Looked at and not clear: ${listed(looked)}.` : null,
    table: {
      columns: [
        { label: 'Goes with' },
        { label: 'Cases' },
        { label: 'About so many times as long', number: true, method: 'patterns' },
        { label: '95 % interval', method: 'patterns' },
      ],
      rows: shown.map((pattern) => {
        const { label, under } = patternRow(pattern);
        return [label, under, timesOf(pattern.ratio), `${timesOf(pattern.low)} to ${timesOf(pattern.high)}`];
      }),
    },
  };
}

/** Two decimals while near 1: an interval from 1.04 on printed as "1 to …" would seem to hold "no difference". */
const timesOf = (value: number) => String(Number(value.toFixed(value < 2 ? 2 : 1)));

function patternRow({ factor, kind, label, nWith, nWithout, ratio, low, high }: Pattern): PatternRowView {
  return {
    id: factor,
    label,
    under:
      kind === 'over-time'
        ? `the latest ${nWith} against the ${nWithout} before them`
        : `${counted(nWith, 'case')} with, ${nWithout} without`,
    ratio,
    low,
    high,
    words: `about ${timesOf(ratio)} times as long (${timesOf(low)} to ${timesOf(high)})`,
    bold: false,
  };
}
