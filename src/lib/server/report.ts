import { SHORTER_WRONG_PER_HUNDRED } from '../assessment/error-rates';
import { goalState, lastingState } from '../assessment/goal-state';
import { goalReport, monthReport, yearReport, type ReportRecord, type ReportView } from '../assessment/report';
import type { SurgeonRecord } from '../assessment/record';
import { monthWords } from '../assessment/when-words';
import type { Goal } from '../model';
import type { GoalLine } from '../assessment/goal-lines';
import { readGoalLines } from './after';
import { loadCautions } from './content';
import { readRecord } from './record';
import type { Store } from './storage/port';

export type ReportChoices = {
  goals: { id: string; label: string }[];
  months: { id: string; label: string }[];
  years: string[];
  notes: { id: string; label: string; ticked: boolean }[];
};

/**
 * The report a query asks for: `?goal=goal-1`, `?month=2026-03` or `?year=2026`, and `note=` for each reflection
 * ticked. Without any, the latest goal, else the latest month. `report` is `null` for an empty record.
 */
export async function reportOf(
  store: Store,
  query: URLSearchParams,
): Promise<{ report: ReportView | null; choices: ReportChoices; asked: string }> {
  const record = await readRecord(store);
  const cautions = loadCautions();
  const noteIds = query.getAll('note');
  const months = [
    ...new Set(
      record.lists.flatMap(({ when }) =>
        when.kind === 'date' ? [when.date.slice(0, 7)] : when.kind === 'month' ? [when.month] : [],
      ),
    ),
  ]
    .sort()
    .reverse();
  const years = [...new Set(record.goals.map((goal) => goal.setAt.slice(0, 4)))].sort().reverse();
  const goals = [...record.goals].sort((a, b) => (a.setAt < b.setAt ? 1 : -1));
  const lines = await readGoalLines(record);
  const input: ReportRecord = {
    lineOf: (goal) => goalLine(record, goal, lines),
    ...record,
    cautions: [...cautions.standing.paragraphs, ...cautions.codes.paragraphs],
    falsePerHundred: SHORTER_WRONG_PER_HUNDRED,
  };
  const labelOf = (stepId: string) =>
    record.procedures.flatMap((each) => each.steps).find((step) => step.id === stepId)?.label ?? stepId;

  const year = query.get('year');
  const month = query.get('month') ?? (query.get('goal') || year || goals.length > 0 ? null : (months[0] ?? null));
  const goal = month || year ? undefined : (goals.find((each) => each.id === query.get('goal')) ?? goals[0]);
  const offered = record.reflections.filter((each) =>
    goal ? each.goalId === goal.id : month ? each.at.startsWith(month) : false,
  );
  const report = year
    ? yearReport(year, goals, input)
    : month
      ? monthReport(month, goals, input, noteIds)
      : goal
        ? reportOfGoal(record, goal, input, noteIds)
        : null;
  return {
    report,
    asked: year ? `year=${year}` : month ? `month=${month}` : goal ? `goal=${goal.id}` : '',
    choices: {
      goals: goals.map((each) => ({
        id: each.id,
        label: `${labelOf(each.stepId)}, set in ${monthWords(each.setAt.slice(0, 7))}`,
      })),
      months: months.map((id) => ({ id, label: monthWords(id) })),
      years: record.goals.length >= 2 ? years : [],
      notes: offered.map((each) => ({
        id: each.id,
        label: `${monthWords(each.at.slice(0, 7))}: ${(each.saw || each.willTry).replace(/\s+/g, ' ').slice(0, 90)}`,
        ticked: noteIds.includes(each.id),
      })),
    },
  };
}

function reportOfGoal(record: SurgeonRecord, goal: Goal, input: ReportRecord, noteIds: readonly string[]): ReportView {
  const state = goalState(record, goal);
  return goalReport(state, input, noteIds, lastingState(record, state));
}

/** As After twenty's list has it; an event added after the result is said here too. */
function goalLine(record: SurgeonRecord, goal: Goal, lines: readonly GoalLine[]): string {
  const line = lines.find(({ id }) => id === goal.id);
  const { gate, stored } = goalState(record, goal);
  const reopened = stored.length > 0 && gate !== null && !gate.open ? '; a safety review is owed since' : '';
  return `${line?.step ?? goal.stepId}: ${line?.said ?? ''}${reopened}.`;
}
