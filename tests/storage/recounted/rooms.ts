import { auditOf, type Audit } from '../../../src/lib/audit';
import { suggestionFor } from '../../../src/lib/assess/suggest';
import type { SurgeonRecord } from '../../../src/lib/model';
import { writingCases, writingStretches } from '../../../src/lib/intake';
import { atOnce } from '../../../src/lib/turns';
import { afterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { goalLines } from '../../../src/lib/rooms/after-twenty/goal-lines';
import { noteViews } from '../../../src/lib/rooms/before-a-list/note-view';
import { caseView } from '../../../src/lib/rooms/cases/case-view';
import { casesView, filterFrom } from '../../../src/lib/rooms/cases/cases-view';
import { chooseView } from '../../../src/lib/rooms/choose/choose-view';
import { goalsBeside } from '../../../src/lib/rooms/choose/step-goals';
import { stepView } from '../../../src/lib/rooms/choose/step-view';
import { goalReading, lastingOf, seriesOf } from '../../../src/lib/rooms/goals/goal-reading';
import { hiddenCaseIds } from '../../../src/lib/rooms/goals/hidden-times';
import { openGoals } from '../../../src/lib/rooms/goals/goal-standing';
import { waitingCases } from '../../../src/lib/rooms/goals/waiting-for-review';
import { listView } from '../../../src/lib/rooms/lists/list-view';
import { monthLine } from '../../../src/lib/rooms/now/month-line';
import { needsLook, nowView } from '../../../src/lib/rooms/now/now-view';
import { practiceMonth } from '../../../src/lib/rooms/now/practice-month';
import { overTimeView } from '../../../src/lib/rooms/over-time/over-time-view';
import { askedSplit } from '../../../src/lib/rooms/over-time/split';
import { goalView } from '../../../src/lib/rooms/plan/goal-view';
import { reflectionRows, waitingLists } from '../../../src/lib/rooms/reflect/reflect-view';
import { goalReport, monthReport, reportMarkdown, yearReport } from '../../../src/lib/rooms/report';
import { suggestionWords } from '../../../src/lib/words';
import { operation } from '../../made-up/month';
import type { Moment } from './record';

/** What a room or a file says at one moment: its sentences, without drawings and addresses. */
export type Room = (moment: Moment) => string[];

/** Not printed: what places a mark, an address, a name inside the program. */
const NOT_PRINTED = new Set([
  'id',
  'href',
  'caseId',
  'goalId',
  'stepId',
  'procedureId',
  'listId',
  'query',
  'value',
  'list',
  'edit',
  'eye',
  'dots',
  'day',
  'fields',
  'mentor',
  'strokes',
  'ticks',
]);

/** A row of a table or a drawing is read as one line, so that a number stays beside what it belongs to. */
const ROWS = new Set(['rows', 'points', 'cells', 'cases', 'groups', 'periods', 'between', 'steps', 'stretches']);

export const texts = (value: unknown): string[] =>
  typeof value === 'string'
    ? [value.replaceAll('\u00A0', ' ')]
    : Array.isArray(value)
      ? value.flatMap(texts)
      : typeof value === 'object' && value !== null
        ? Object.entries(value).flatMap(([key, held]) =>
            NOT_PRINTED.has(key)
              ? []
              : ROWS.has(key) && Array.isArray(held)
                ? held.flatMap((row) => (key === 'groups' ? texts(row) : [texts(row).join(' | ')]))
                : texts(held),
          )
        : [];

const seen = (record: SurgeonRecord) => {
  const hidden = hiddenCaseIds(record);
  return record.cases.filter(({ id }) => !hidden.has(id));
};
const audits = new WeakMap<SurgeonRecord, Audit>();
export function auditIn(record: SurgeonRecord): Audit {
  const known = audits.get(record);
  if (known) return known;
  const audit = auditOf({
    cases: seen(record),
    lists: record.lists,
    procedure: operation,
    references: [],
    seed: 1,
    resamples: 100,
  });
  audits.set(record, audit);
  return audit;
}
const reported = (record: SurgeonRecord) => ({
  ...record,
  cautions: [],
  falsePerHundred: 3,
  lines: goalLines(record, (goal) => ({ state: goalReading(record, goal) })),
});
const months = ({ lists }: SurgeonRecord) => [
  ...new Set(lists.flatMap(({ when }) => (when.kind === 'date' ? [when.date.slice(0, 7)] : []))),
];

export const now: Room = ({ record, day }) => {
  const audit = auditIn(record);
  const suggestion = suggestionFor(audit, record);
  const look = {
    enough: audit.enough,
    twoToWatch: audit.twoToWatch,
    suggestion,
    words: suggestionWords(audit, suggestion),
  };
  return texts([
    nowView(record, needsLook(record) ? look : null),
    monthLine(record),
    practiceMonth(openGoals(record)[0], record, null, `${day}T22:00:00.000Z`),
  ]);
};
export const choose: Room = ({ record }) => {
  const audit = auditIn(record);
  const heldBack = record.cases.length - seen(record).length;
  return texts([
    chooseView(audit, suggestionFor(audit, record), 'seconds', { heldBack, procedure: null }),
    goalsBeside(reported(record).lines, operation.id),
  ]);
};
export const step: Room = ({ record }) =>
  texts(stepView(auditIn(record), 'practised', seen(record), { marked: {}, query: { procedure: null, view: null } }));
export const cases: Room = ({ record, day }) => {
  const hidden = hiddenCaseIds(record);
  return texts([
    casesView(record, hidden, filterFrom(new Map())),
    record.lists.slice(0, 3).map((list) => listView(list, record, hidden, day)),
    record.cases
      .slice(0, 12)
      .map((one) => texts(caseView(one, record, hidden.has(one.id))).map((text) => `${one.code}: ${text}`)),
  ]);
};
export const reflect: Room = ({ record }) =>
  texts([
    waitingLists(record.cases, record.lists, waitingCases(record)),
    `${waitingCases(record).length} cases wait for review.`,
    reflectionRows(record, { word: '', stepId: '', checkpointId: '', from: '', to: '' }),
  ]);
export const plan: Room = ({ record }) => texts(record.goals.map((goal) => goalView(goal, record)));
export const note: Room = ({ record }) =>
  texts(
    noteViews(record.goals, record.procedures, {
      standing: [],
      foot: [],
      generalLead: '',
      generalPoints: [],
      rupture: [],
    }),
  );
export const after: Room = ({ record }) =>
  texts(
    record.goals.map((goal) => {
      const state = goalReading(record, goal);
      return afterView({
        state,
        record,
        lasting: lastingOf(record, state),
        series: seriesOf(record, state),
        signal: '',
      });
    }),
  );
export const report: Room = ({ record }) => {
  const told = reported(record);
  const views = [
    ...record.goals.map((goal) => {
      const state = goalReading(record, goal);
      return goalReport(
        state,
        told,
        record.reflections.map(({ id }) => id),
        lastingOf(record, state),
      );
    }),
    ...months(record).map((month) => monthReport(month, record.goals, told, [])),
    yearReport('2026', record.goals, told),
    yearReport('2026', [], told),
  ];
  return views.flatMap((view) =>
    reportMarkdown(view)
      .split('\n')
      .map((line) => line.replaceAll('\u00A0', ' ')),
  );
};
export const overTime: Room = ({ record }) =>
  texts(overTimeView(record, operation, askedSplit(new URLSearchParams({ split: 'halves' }))));
export const files: Room = ({ record }) =>
  [writingCases, writingStretches].flatMap((writing) =>
    atOnce(writing(record.cases, { procedure: operation, lists: record.lists, dates: 'day' })).split('\n'),
  );
