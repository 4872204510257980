import type { ChartSeries } from '../../practice';
import type { Outcome } from '../../model';
import { runView } from '../after-twenty/after-chart';
import { chartTitle } from '../../words/after-twenty';
import type { GoalReading } from '../goals/goal-reading';
import type { ReportView } from './report';

/**
 * The baseline cases and the window of a goal in one run, without codes, days and notes: a report goes out. The twenties
 * after it are told in words beside, so that the run keeps to one row of an A4 side.
 * @param series `null` where no window may be seen, or nothing can be drawn
 * @param shown the outcome the report tells; `null`: none yet, and no time is shown before
 */
export function goalRun(
  state: GoalReading,
  series: ChartSeries | null,
  shown: Outcome | null,
): Pick<ReportView['sections'][number], 'run'> {
  if (!series || !shown) return {};
  const { step, window, goal, drawn, cases, procedure } = state;
  const { table: _, ...run } = runView({
    series,
    title: chartTitle(step.label, shown, window, []),
    baselineIds: goal.baseline.caseIds,
    windows: drawn.slice(0, 1),
    full: Math.min(window.windows.length, 1),
    length: window.need.cases,
    cases,
    procedureId: procedure.id,
    reflections: [],
  });
  const lists = [...new Set(run.cases.flatMap(({ list }) => list ?? []))];
  return {
    run: {
      ...run,
      lanes: run.lanes.filter((lane) => lane !== 'notes'),
      cases: run.cases.map((one, at) => ({
        ...one,
        id: String(at + 1),
        code: `case ${at + 1}`,
        list: one.list === null ? null : String(lists.indexOf(one.list) + 1),
      })),
    },
  };
}
