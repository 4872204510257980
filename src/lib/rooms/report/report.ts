import type { AgreementData } from '../mentor/agreement';
import type { GoalLine } from '../after-twenty/goal-lines';
import type { SurgeonRecord } from '../../model';
import type { RunView } from '../after-twenty/after-chart';

/** One A4 page. Months, not dates; no codes; every figure with its n. Rendered as HTML, Markdown, JSON or CSV. */
export type ReportView = {
  /** The answer in one sentence. */
  head: string;
  title: string;
  period: string;
  sections: readonly {
    heading: string;
    lines: readonly string[];
    strong?: string;
    table?: { caption: string; columns: readonly string[]; rows: readonly (readonly string[])[] };
    /** A run of cases, drawn where a page can draw: without codes or days. */
    run?: Omit<RunView, 'table'>;
  }[];
  /** Reflections the surgeon ticked. */
  notes: readonly { month: string; saw: string; willTry: string }[];
  footnotes: readonly string[];
  cautions: readonly string[];
  /** One row a figure, for CSV and JSON. */
  figures: readonly {
    name: string;
    value: number | null;
    low: number | null;
    high: number | null;
    n: number | null;
    unit: string;
  }[];
  /** Of a goal: its reviews with a mentor, for JSON. Missing in a report of a month or a year. */
  agreement?: readonly AgreementData[];
};

export type ReportRecord = SurgeonRecord & {
  cautions: readonly string[];
  falsePerHundred: number;
  /** Every goal in one line, as After twenty's list of goals has it. */
  lines: readonly GoalLine[];
};

export const FOOTNOTES = [
  'Times were taken from recordings or noted by hand; protected parts and waiting are outside step time.',
  "The result compares a goal's step with the rest of the same operations, by robust regression on facts of the eye, with lists as the unit of chance; in 95 of 100 repetitions such an interval would hold the true change.",
  'Events are counted over answered cases only. Bounds are exact (Clopper–Pearson).',
];
