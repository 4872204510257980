import { itemAt } from '../../item-at';
import { auditThresholds, countedCases, stepTable, type StepTable } from '../../audit';
import { clock, counted } from '../../format';
import type { Case, ListRecord, Procedure } from '../../model';
import { lookingBack } from '../../practice';
import { eventBounds, stepEventTally, type StepEventTally } from '../../safety';
import { median, quantile } from '../../statistics';
import { heldBackWords } from '../../words/hidden-until';
import { lookingBackWords } from '../../words/looking-back';
import { lanesOf, notAsked, type RunCaseView } from '../after-twenty/run-lanes';
import { hiddenCaseIds } from '../goals/hidden-times';
import { goalOfSplit } from '../over-time/goal-of-split';
import type { ReportRecord, ReportView } from './report';

type Section = ReportView['sections'][number];
type Part = { sections: Section[]; figures: ReportView['figures'] };

/** Steps a case needs before all of them together say something of it. */
const STEPS_TOGETHER = 3;

/** Lists of a month (`YYYY-MM`) or a year (`YYYY`). */
export const listsIn = (lists: readonly ListRecord[], period: string): ListRecord[] =>
  lists.filter(({ when }) =>
    when.kind === 'date' ? when.date.startsWith(period) : when.kind === 'month' && when.month.startsWith(period),
  );

/**
 * A month or year without a goal: each step's median, 20th percentile, two thirds and events, the run of its cases, and
 * where the same part of the year before exists, the two compared. Times a running window hides are left out.
 * @param period `YYYY-MM` or `YYYY` @param words the period in words, by itself ("March 2026")
 */
export function timesOfPeriod(period: string, words: (period: string) => string, record: ReportRecord): Part {
  const hidden = hiddenCaseIds(record);
  const before = `${Number(period.slice(0, 4)) - 1}${period.slice(4)}`;
  const on = (which: string) => {
    const ids = new Set(listsIn(record.lists, which).map(({ id }) => id));
    return record.cases.filter(({ listId }) => listId !== null && ids.has(listId));
  };
  const [now, then] = [on(period), on(before)].map((cases) => cases.filter(({ id }) => !hidden.has(id))) as [
    Case[],
    Case[],
  ];
  const several = record.procedures.filter((each) => countedCases(now, each).length > 0).length > 1;
  const parts = record.procedures.map((procedure) => {
    const cases = countedCases(now, procedure);
    if (cases.length === 0) return { sections: [], figures: [] };
    const of = several ? `, ${procedure.name}` : '';
    const table = stepTable(cases, procedure, record.lists);
    const times = timesSection(`Times${of}`, table, countedCases(on(period), procedure).length - cases.length);
    const earlier = countedCases(then, procedure);
    return {
      sections: [
        times.section,
        ...(earlier.length > 0
          ? [
              comparison(
                `Against ${words(before)}${of}`,
                earlier,
                cases,
                procedure,
                record,
                words(period),
                words(before),
              ),
            ]
          : []),
      ],
      figures: times.figures,
    };
  });
  return { sections: parts.flatMap(({ sections }) => sections), figures: parts.flatMap(({ figures }) => figures) };
}

function timesSection(
  heading: string,
  table: StepTable,
  heldBack: number,
): { section: Section; figures: ReportView['figures'] } {
  const steps = table.stepIds.flatMap((stepId, step) => {
    const present = (table.seconds[step] ?? new Float64Array(0)).filter(Number.isFinite);
    if (present.length === 0) return [];
    const enough = present.length >= auditThresholds.intervalFrom;
    const at = (share: number) => (enough ? quantile(present, share) : null);
    // An event counts for its step where the step was not timed too: it may be why it was taken over.
    const events = stepEventTally(table.cases, stepId);
    return [
      {
        label: table.procedure.steps.find(({ id }) => id === stepId)?.label ?? stepId,
        n: present.length,
        median: median(present),
        p20: at(0.2),
        low: at(1 / 6),
        high: at(5 / 6),
        events: eventsCell(events),
      },
    ];
  });
  const time = (seconds: number | null) => (seconds === null ? '' : clock(seconds));
  return {
    section: {
      heading,
      lines: [
        [
          `${counted(table.cases.length, 'case')}. Median, 20th percentile and two thirds of the cases are of the times as recorded, in min:s.`,
          ...looseEvents(table.cases),
          ...(heldBack > 0 ? [heldBackWords(heldBack, 'a running window')] : []),
        ].join(' '),
      ],
      table: {
        caption: heading,
        columns: ['Step', 'Cases', 'Median', '20th percentile', 'Two thirds', 'Events, of those answered'],
        rows: steps.map(({ label, n, median, p20, low, high, events }) => [
          label,
          String(n),
          time(median),
          time(p20),
          low === null ? '' : `${time(low)} to ${time(high)}`,
          events,
        ]),
      },
      ...runOf(table),
    },
    figures: steps.flatMap(({ label, n, median, p20, low, high }) => [
      { name: `${label}: median; two thirds`, value: median, low, high, n, unit: 's' },
      { name: `${label}: 20th percentile`, value: p20, low: null, high: null, n, unit: 's' },
    ]),
  };
}

/** A count among those answered; no such count where only events were written down, and never a "none". */
function eventsCell(tally: StepEventTally): string {
  const { kind } = eventBounds(tally);
  if (kind === 'never-asked') return 'not asked';
  return kind === 'only-events' ? `${tally.withEvent} written down` : `${tally.withEvent} of ${tally.answered}`;
}

function looseEvents(cases: readonly Case[]): string[] {
  const loose = cases.filter(({ events }) => events?.some(({ stepId }) => stepId === null)).length;
  return loose === 0
    ? []
    : [`${counted(loose, 'case')} with an event tied to no step ${loose === 1 ? 'is' : 'are'} counted at no step.`];
}

/** The run of cases: all steps of each together, over their medians in the period. No codes and no days: a report goes out. */
function runOf(table: StepTable): Pick<Section, 'run'> {
  const medians = table.seconds.map((row) => {
    const present = row.filter(Number.isFinite);
    return present.length > 0 ? median(present) : NaN;
  });
  const lists = new Map<string, string>();
  const cases = table.cases.map((one, place): RunCaseView => {
    const logs = medians.flatMap((of, step) => {
      const value = Math.log(itemAt(itemAt(table.seconds, step), place) / of);
      return Number.isFinite(value) ? [value] : [];
    });
    const ratio =
      logs.length < STEPS_TOGETHER ? null : Math.exp(logs.reduce((sum, value) => sum + value, 0) / logs.length);
    if (one.listId !== null && !lists.has(one.listId)) lists.set(one.listId, String(lists.size + 1));
    return {
      id: String(place + 1),
      code: `case ${place + 1}`,
      period: 0,
      ratio,
      leftOut: false,
      list: one.listId === null ? null : (lists.get(one.listId) ?? null),
      note: false,
      events: one.events === null ? 'not-answered' : one.events.length > 0 ? 'event' : 'none',
      said: ratio === null ? 'too few steps timed' : `${Math.round(ratio * 100)}; 100 is the median of each step`,
    };
  });
  if (!table.orderKnown || cases.every(({ ratio }) => ratio === null)) return {};
  const lanes = lanesOf(cases, ['lists', 'events']);
  return {
    run: {
      title: 'All steps of each case, in order of time',
      reading: ['100 = the median of each step in this period, as recorded. Up is longer.', ...notAsked(cases)].join(
        ' ',
      ),
      key: lanes.includes('events') ? 'E event · ? not answered · blank: answered, none' : '○ one case',
      periods: [
        {
          id: 'shown',
          label: counted(cases.length, 'case'),
          shape: 'open-circle',
          median: null,
          named: false,
          mayShorten: true,
        },
      ],
      limits: null,
      cases,
      lanes,
    },
  };
}

function comparison(
  heading: string,
  earlier: readonly Case[],
  later: readonly Case[],
  procedure: Procedure,
  record: ReportRecord,
  now: string,
  then: string,
): Section {
  if (goalOfSplit(record, procedure, earlier, later))
    return { heading, lines: ['These are the baseline cases and the window of a goal, which has its own result.'] };
  const said = lookingBack({
    cases: [...earlier, ...later],
    lists: record.lists,
    procedure,
    earlier: earlier.map(({ id }) => id),
    later: later.map(({ id }) => id),
    fixed: true,
  });
  const { head, sentences, doesNotSay } = lookingBackWords(said, { earlier: `in ${then}`, later: `in ${now}` });
  return {
    heading,
    strong: head,
    lines: [sentences.join(' '), ...(doesNotSay[0] ? [`Does not say: ${doesNotSay.slice(0, 2).join(' ')}`] : [])],
  };
}
