import { auditThresholds, type Audit, type Pattern } from '../../audit';
import { factOf } from '../../audit/eye-coding';
import { clock, counted, factPhrase, inSentence } from '../../format';
import type { Case, EyeFact } from '../../model';
import { median } from '../../statistics';
import { eyeWords } from '../cases/eye-words';

type SplitDot = { code: string; seconds: number; said: string; mark?: string };
type SplitRow = {
  id: string;
  label: string;
  under: string;
  dots: SplitDot[];
  median: { seconds: number; text: string } | null;
};

/** The cases of a step as recorded, in rows by one fact of the eye, by time, or all in one. */
export type StepSplit = {
  by: string;
  /** Ways in which these cases can be parted; empty where there is none. */
  choices: readonly { id: string; label: string }[];
  title: string;
  reading: string;
  key: string;
  input: { rows: readonly SplitRow[]; ticks: readonly (readonly [number, string])[]; seed: number };
  table: { columns: { label: string; number?: boolean }[]; rows: string[][] };
};

const TICKS = [2, 5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 300, 450, 600, 900, 1200, 1800, 2700, 3600];
/** A level of fewer cases is a row too, but a fact with one such level only is no way to part them. */
const PER_ROW = auditThresholds.levelCases;

type Part = { id: string; label: string; has: (one: Case, place: number) => boolean };

/**
 * @param shown the cases of the audit, in order of time
 * @param asked how the reader wants them parted; without it by what the page is headed by
 */
export function stepSplit(
  audit: Audit,
  stepId: string,
  shown: readonly Case[],
  { marked, asked, chief }: { marked: Readonly<Record<string, string>>; asked: string | null; chief: Pattern | null },
): StepSplit | null {
  const step = audit.steps.find((each) => each.stepId === stepId);
  if (!step || step.dots.length === 0) return null;
  const seconds = new Map(step.dots.map((dot) => [dot.caseId, dot.seconds]));
  const ratios = new Map(step.dots.map((dot) => [dot.caseId, dot.ratio]));
  const saidOf = (one: Case) =>
    [
      `${clock(seconds.get(one.id) ?? NaN)} as recorded`,
      `${(ratios.get(one.id) ?? NaN).toFixed(2)} times your median when adjusted for the eye`,
      eyeWords(one, audit.procedure),
    ]
      .filter(Boolean)
      .join('; ');
  const cases = shown.filter(({ id }) => seconds.has(id));
  const ways = waysOf(audit, cases);
  const wanted = [asked, chief?.factId, chief?.kind === 'over-time' ? 'time' : null];
  const way = wanted.flatMap((id) => ways.find((each) => each.id === id) ?? []).at(0) ?? ways.at(0) ?? null;
  const parts = way?.parts ?? [{ id: 'all', label: 'all cases', has: () => true }];
  const rows = parts.flatMap(({ id, label, has }): SplitRow[] => {
    const own = cases.filter(has);
    if (own.length === 0) return [];
    const times = own.map((one) => seconds.get(one.id) ?? NaN);
    const middle = times.length < PER_ROW ? null : median(times);
    return [
      {
        id,
        label,
        under: counted(own.length, 'case'),
        median: middle === null ? null : { seconds: middle, text: clock(middle) },
        dots: own.map((one) => ({
          code: one.code,
          seconds: seconds.get(one.id) ?? NaN,
          said: saidOf(one),
          ...(marked[one.id] ? { mark: marked[one.id] } : {}),
        })),
      },
    ];
  });
  return {
    by: way?.id ?? 'all',
    choices: ways.map(({ id, label }) => ({ id, label })),
    title: `${step.label}, ${!way ? 'each case' : way.id === 'time' ? 'earlier and later cases' : `by ${way.label}`}`,
    reading: [
      `Times as recorded${rows.length > 1 ? ', not adjusted for the eye' : ''}. Further right is longer.`,
      ...(way ? [clear(audit, stepId, way.id)] : []),
    ].join(' '),
    key: [
      '○ one case',
      ...(rows.some((row) => row.median) ? ['upright line: median of the row'] : []),
      ...(Object.keys(marked).length > 0 ? ['● the two to watch'] : []),
    ].join(' · '),
    input: { rows, ticks: TICKS.map((each) => [each, clock(each)] as const), seed: audit.seed },
    table: {
      columns: [
        { label: way ? `By ${way.label}` : 'Cases' },
        { label: 'Number', number: true },
        { label: 'Median', number: true },
        { label: 'Shortest', number: true },
        { label: 'Longest', number: true },
      ],
      rows: rows.map(({ label, dots, median: middle }) => {
        const times = dots.map((dot) => dot.seconds);
        return [
          label,
          String(dots.length),
          middle?.text ?? 'too few',
          clock(Math.min(...times)),
          clock(Math.max(...times)),
        ];
      }),
    },
  };
}

/** Whether what the rows differ in was found to go with the time: the eye alone cannot judge it from dots. */
function clear({ patterns, caseIds }: Audit, stepId: string, by: string): string {
  if (caseIds.length < auditThresholds.patternsFrom) return 'Too few cases to say whether these rows differ.';
  const found = patterns.some(
    (each) => each.shown && each.stepId === stepId && (by === 'time' ? each.kind === 'over-time' : each.factId === by),
  );
  return found ? '' : 'No clear difference was found between them.';
}

/** Facts of the eye and the order in time, where each part has enough cases to be looked at. */
function waysOf(audit: Audit, cases: readonly Case[]): { id: string; label: string; parts: Part[] }[] {
  const half = Math.ceil(cases.length / 2);
  const ways = [
    ...audit.procedure.facts.map((fact) => ({
      id: fact.id,
      label: inSentence(fact.label),
      parts: partsOf(fact, cases),
    })),
    ...(audit.orderKnown
      ? [
          {
            id: 'time',
            label: 'order in time',
            parts: [
              { id: 'earlier', label: 'earlier', has: (_: Case, place: number) => place < half },
              {
                id: 'later',
                label: 'later',
                has: (_: Case, place: number) => place >= half,
              },
            ],
          },
        ]
      : []),
  ];
  return ways.filter(
    ({ parts }) => parts.filter(({ id, has }) => id !== 'none' && cases.filter(has).length >= PER_ROW).length > 1,
  );
}

function partsOf(fact: EyeFact, cases: readonly Case[]): Part[] {
  const none: Part = { id: 'none', label: 'not recorded', has: (one) => factOf(one, fact) === null };
  if (fact.kind === 'number') {
    const values = cases.map((one) => factOf(one, fact)).filter((value) => typeof value === 'number');
    if (values.length === 0) return [];
    const middle = median(values);
    const said = `${Number(middle.toFixed(2))}${fact.unit ? ` ${fact.unit}` : ''}`;
    const of = (one: Case) => Number(factOf(one, fact) ?? NaN);
    return [
      { id: 'low', label: `${said} or less`, has: (one) => of(one) <= middle },
      { id: 'high', label: `above ${said}`, has: (one) => of(one) > middle },
      none,
    ];
  }
  if (fact.kind === 'yes-no')
    return [
      ...[false, true].map((value) => ({
        id: String(value),
        label: factPhrase(fact, value),
        has: (one: Case) => factOf(one, fact) === value,
      })),
      none,
    ];
  return [
    ...(fact.levels ?? []).map(({ id, label }) => ({ id, label, has: (one: Case) => factOf(one, fact) === id })),
    none,
  ];
}
