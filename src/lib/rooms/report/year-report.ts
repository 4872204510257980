import type { Goal } from '../../model';
import { linesOf, lineText, monthOf, safetyOfTime, sinceFigures } from './parts';
import { FOOTNOTES, type ReportRecord, type ReportView } from './report';

/** A year on one page: a line a goal, and how often chance alone says *shorter* in such a year. */
export function yearReport(year: string, goals: readonly Goal[], record: ReportRecord): ReportView {
  const mine = goals.filter((goal) => goal.setAt.startsWith(year));
  const lists = record.lists.filter(({ when }) =>
    when.kind === 'date' ? when.date.startsWith(year) : when.kind === 'month' && when.month.startsWith(year),
  );
  const safety = safetyOfTime(lists, mine, record);
  return {
    title: 'A year of goals',
    period: year,
    sections: [
      {
        heading: 'Goals',
        lines: mine.flatMap((goal) =>
          linesOf([goal], record).map((line) => `${monthOf(goal.setAt)}: ${lineText(line)}`),
        ),
      },
      {
        heading: 'Read with this in mind',
        lines: [
          `When nothing has changed, one window still reads as shorter about ${record.falsePerHundred} times in 100; twelve windows of no change give one false result of this kind in about a quarter of years.`,
        ],
      },
      safety.section,
    ],
    notes: [],
    footnotes: FOOTNOTES,
    cautions: record.cautions,
    figures: [
      { name: 'goals', value: mine.length, low: null, high: null, n: null, unit: 'goals' },
      ...linesOf(mine, record).flatMap(({ step, counts }) => sinceFigures(counts, step)),
      ...safety.figures,
    ],
  };
}
