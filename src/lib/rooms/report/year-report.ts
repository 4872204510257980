import type { Goal } from '../../model';
import { counted } from '../../format';
import { linesOf, lineText, monthOf, safetyOfTime, sinceFigures } from './parts';
import { listsIn, timesOfPeriod } from './times-of-period';
import { FOOTNOTES, type ReportRecord, type ReportView } from './report';

/** A year on one page: a line a goal, and how often chance alone says *shorter* in such a year. */
export function yearReport(year: string, goals: readonly Goal[], record: ReportRecord): ReportView {
  const mine = goals.filter((goal) => goal.setAt.startsWith(year));
  const lists = listsIn(record.lists, year);
  const times = mine.length === 0 ? timesOfPeriod(year, (each) => each, record) : { sections: [], figures: [] };
  const safety = safetyOfTime(lists, mine, record);
  return {
    head: `${year}: ${mine.length === 0 ? 'a year without a goal' : `${counted(mine.length, 'goal')} set`}.`,
    title: mine.length === 0 ? 'One year' : 'A year of goals',
    period: year,
    sections: [
      ...(mine.length === 0 ? [{ heading: 'Goals', lines: ['A year without a goal.'] }] : goalSections(mine, record)),
      ...times.sections,
      safety.section,
    ],
    notes: [],
    footnotes: FOOTNOTES,
    cautions: record.cautions,
    figures: [
      { name: 'goals', value: mine.length, low: null, high: null, n: null, unit: 'goals' },
      ...linesOf(mine, record).flatMap(({ step, counts }) => sinceFigures(counts, step)),
      ...times.figures,
      ...safety.figures,
    ],
  };
}

const goalSections = (mine: readonly Goal[], record: ReportRecord): ReportView['sections'] => [
  {
    heading: 'Goals',
    lines: mine.flatMap((goal) => linesOf([goal], record).map((line) => `${monthOf(goal.setAt)}: ${lineText(line)}`)),
  },
  {
    heading: 'Read with this in mind',
    lines: [
      `When nothing has changed, one window still reads as shorter about ${record.falsePerHundred} times in 100; with twelve windows of no change a year, that is at least one false result of this kind in about one year in ${oneYearIn(record.falsePerHundred)}.`,
    ],
  },
];

/** Every how many years at least one of twelve windows of no change reads as shorter, each for itself: 1 − 0.98¹² is 0.215. */
function oneYearIn(falsePerHundred: number): string {
  const years = Math.round(1 / (1 - (1 - falsePerHundred / 100) ** 12));
  return ['', '', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'][years] || String(years);
}
