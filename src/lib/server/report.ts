import { SHORTER_WRONG_PER_HUNDRED } from '../words/error-rates';
import { goalReading, lastingOf, seriesOf } from '../rooms/goals/goal-reading';
import {
  goalReport,
  monthReport,
  withoutPersons,
  yearReport,
  type ReportRecord,
  type ReportView,
} from '../rooms/report';
import type { SurgeonRecord, Goal } from '../model';
import { monthWords } from '../rooms/forms/when-words';
import { readGoalLines } from './after';
import { loadCautions } from './content';
import { readRecord } from './record';
import type { Store } from './storage/port';

export type ReportChoices = {
  /** Groups of the one list to pick from. */
  of: { label: string; options: { id: string; label: string }[] }[];
  notes: { id: string; label: string; ticked: boolean }[];
};

export type AskedReport = {
  /** `null` for an empty record. */
  report: ReportView | null;
  choices: ReportChoices;
  /** The goal, month or year the report is of. */
  asked: string;
  /** Written text that is not in the report because it looks like a person. */
  looksLike: readonly string[];
};

/**
 * The report a query asks for: `?of=goal-1`, `?of=2026-03` or `?of=2026`, `note=` for each reflection ticked, and
 * `nobody=yes` where text that looks like a person points to nobody. Without any, the latest goal, else the latest month.
 */
export async function reportOf(store: Store, query: URLSearchParams): Promise<AskedReport> {
  const record = await readRecord(store);
  const cautions = loadCautions();
  const noteIds = query.getAll('note');
  // Latest set first: by its place in the record, since a clock can be set back.
  const goals = [...record.goals].reverse();
  const months = monthsOf(record);
  const years = [
    ...new Set([...goals.map((goal) => goal.setAt.slice(0, 4)), ...months.map((each) => each.slice(0, 4))]),
  ]
    .sort()
    .reverse();

  const of = query.get('of') ?? '';
  const year = /^\d{4}$/.test(of) ? of : null;
  const month = /^\d{4}-\d\d$/.test(of) ? of : goals.length > 0 ? null : (months[0] ?? null);
  const asked = year || month ? undefined : (goals.find((each) => each.id === of) ?? goals[0]);
  const offered = record.reflections.filter((each) =>
    asked ? each.goalId === asked.id : month ? each.at.startsWith(month) : false,
  );
  const going = offered.filter(({ id }) => noteIds.includes(id));
  const checked = withoutPersons(asked ?? null, going, query.get('nobody') === 'yes', record.profile.notPersons);

  const input: ReportRecord = {
    ...record,
    lines: await readGoalLines(record),
    reflections: record.reflections.map((each) => checked.reflections.find(({ id }) => id === each.id) ?? each),
    cautions: [...cautions.standing.paragraphs, ...cautions.codes.paragraphs],
    falsePerHundred: SHORTER_WRONG_PER_HUNDRED,
  };
  const report = year
    ? yearReport(year, goals, input)
    : month
      ? monthReport(month, goals, input, noteIds)
      : checked.goal
        ? reportOfGoal(record, checked.goal, input, noteIds)
        : null;
  return {
    report,
    asked: year ?? month ?? asked?.id ?? '',
    looksLike: checked.looksLike,
    choices: {
      of: [
        { label: 'A goal', options: goals.map((goal) => ({ id: goal.id, label: goalLabel(record, goal) })) },
        { label: 'A month', options: months.map((id) => ({ id, label: monthWords(id) })) },
        { label: 'A year', options: years.map((id) => ({ id, label: id })) },
      ].filter(({ options }) => options.length > 0),
      notes: offered.map((each) => ({
        id: each.id,
        label: `${monthWords(each.at.slice(0, 7))}: ${beginning(each.saw || each.willTry)}`,
        ticked: noteIds.includes(each.id),
      })),
    },
  };
}

/** The first words of a note, whole ones. */
function beginning(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length <= 90 ? line : `${line.slice(0, 90).replace(/\s\S*$/, '')} …`;
}

/** Months of dated lists, the latest first. */
const monthsOf = ({ lists }: SurgeonRecord): string[] =>
  [
    ...new Set(
      lists.flatMap(({ when }) =>
        when.kind === 'date' ? [when.date.slice(0, 7)] : when.kind === 'month' ? [when.month] : [],
      ),
    ),
  ]
    .sort()
    .reverse();

function goalLabel({ procedures }: SurgeonRecord, { stepId, setAt }: Goal): string {
  const step = procedures.flatMap(({ steps }) => steps).find(({ id }) => id === stepId)?.label ?? stepId;
  return `${step}, set in ${monthWords(setAt.slice(0, 7))}`;
}

function reportOfGoal(record: SurgeonRecord, goal: Goal, input: ReportRecord, noteIds: readonly string[]): ReportView {
  const state = goalReading(record, goal);
  return goalReport(state, input, noteIds, lastingOf(record, state), seriesOf(record, state));
}
