import type { Goal } from '../../model';
import { counted } from '../../format';
import { operatedOn } from '../../safety';
import { monthWords } from '../forms/when-words';
import { linesOf, lineText, safetyOfTime, sinceFigures, ticked } from './parts';
import { timesOfPeriod } from './times-of-period';
import { FOOTNOTES, type ReportRecord, type ReportView } from './report';

/** The report on one month (`YYYY-MM`): operations, timing, events, goals, reflections. */
export function monthReport(
  month: string,
  goals: readonly Goal[],
  record: ReportRecord,
  noteIds: readonly string[],
): ReportView {
  const lists = record.lists.filter(
    (list) =>
      (list.when.kind === 'date' ? list.when.date.slice(0, 7) : list.when.kind === 'month' ? list.when.month : '') ===
      month,
  );
  const ids = new Set(lists.map((list) => list.id));
  const cases = record.cases.filter((each) => each.listId !== null && ids.has(each.listId));
  // A case may be in the record for its facts and events alone.
  const timed = cases.filter(({ stretches }) => stretches.some(({ kind }) => kind === 'step')).length;
  const operated = lists.every((list) => list.operated !== null)
    ? lists.reduce((sum, list) => sum + (operatedOn(list, cases) ?? 0), 0)
    : null;
  const running = goals.filter(
    (goal) =>
      goal.setAt.slice(0, 7) <= month &&
      (goal.state !== 'closed' || goal.decisions.some((each) => each.at.slice(0, 7) >= month)),
  );
  const lines = linesOf(running, record);
  const safety = safetyOfTime(lists, running, record);
  const notes = record.reflections.filter((each) => each.at.slice(0, 7) === month);
  const times = running.length === 0 ? timesOfPeriod(month, monthWords, record) : { sections: [], figures: [] };
  const operations = `${counted(lists.length, 'list')}; ${operated === null ? 'how many were operated was not said' : `${timed} timed of ${operated} operated`}.`;
  return {
    head: `${monthWords(month)}: ${operations}`,
    title: 'One month',
    period: monthWords(month),
    sections: [
      {
        heading: 'Operations',
        lines: [operations],
      },
      {
        heading: 'Goals, as they stand today',
        lines: lines.length > 0 ? lines.map(lineText) : ['A month without a goal.'],
      },
      ...times.sections,
      safety.section,
    ],
    notes: ticked(notes, noteIds),
    footnotes: FOOTNOTES,
    cautions: record.cautions,
    figures: [
      { name: 'timed', value: timed, low: null, high: null, n: operated, unit: 'cases' },
      { name: 'operated', value: operated, low: null, high: null, n: null, unit: 'operations' },
      ...lines.flatMap(({ step, counts }) => sinceFigures(counts, step)),
      ...times.figures,
      ...safety.figures,
    ],
  };
}
