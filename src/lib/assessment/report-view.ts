import type { Case, Goal, Lasting, ListRecord, Procedure, Reflection, StoredResult } from '../model';
import { eventBounds, eventTally, takeovers } from '../safety';
import { capital, counted, eventWords, inSentence, lastingWords, resultWords } from '../words';
import { answerSummary, ANSWER_WORDS } from './reflect-view';

/** One A4 page. Months, not dates; no codes; every figure with its n. Rendered as HTML, Markdown, JSON or CSV. */
export type ReportView = {
  title: string;
  period: string;
  sections: readonly { heading: string; lines: readonly string[]; strong?: string }[];
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
};

export type ReportRecord = {
  cases: readonly Case[];
  lists: readonly ListRecord[];
  reflections: readonly Reflection[];
  results: readonly StoredResult[];
  procedures: readonly Procedure[];
  cautions: readonly string[];
  falsePerHundred: number;
};

const FOOTNOTES = [
  'Times come from recordings, after surgery; kept parts and waiting are outside step time.',
  'The result compares the step with the rest of the same operations, by robust regression on facts of the eye, with lists as the unit of chance; the interval holds 95 of 100 repetitions.',
  'Events are counted over answered cases only. Bounds are exact (Clopper–Pearson).',
];

const CHOSEN: Record<Goal['chosenBy'], string> = {
  seconds: 'It held the most seconds between usual and shorter cases.',
  spread: 'It varied more than the other steps.',
  reference: 'It differed most from a reference set of other surgeons, without names.',
  safety: 'A safety goal: no time is measured.',
  own: 'Chosen for a reason from outside the record, given before the times were looked at.',
};

/** The report on one goal: what was chosen and why, what was done, the result, safety, reflections. */
export function goalReport(
  goal: Goal,
  record: ReportRecord,
  noteIds: readonly string[],
  lasting: readonly Lasting[],
): ReportView {
  const step = record.procedures
    .find((each) => each.id === goal.procedureId)
    ?.steps.find((each) => each.id === goal.stepId);
  const label = step?.label ?? goal.stepId;
  const result = [...record.results].reverse().find((each) => each.goalId === goal.id) ?? null;
  const window = record.cases.filter((each) => result?.windowIds.includes(each.id));
  const mine = record.reflections.filter((each) => each.goalId === goal.id);
  const words = result
    ? resultWords(result.outcome, { stepLabel: label, falsePerHundred: record.falsePerHundred, pausedBy: null })
    : null;
  return {
    title: `${capital(label)}: one practice goal`,
    period: `From ${monthOf(goal.setAt)}${result ? ` to ${monthOf(result.storedAt)}` : ', under way'}`,
    sections: [
      {
        heading: 'What was chosen, and why',
        lines: [
          `${CHOSEN[goal.chosenBy]}${goal.reason ? ` ${goal.reason}` : ''}`,
          `${counted(goal.start.caseIds.length, 'starting case')}, fixed on the day the goal was set; measure: ${goal.measure}.`,
          `Agreed with the supervisor: ${{ yes: 'yes', 'not-yet': 'not yet', none: 'no supervisor' }[goal.agreed.answer]}.`,
        ],
      },
      { heading: 'What was done', lines: doneLines(goal, mine) },
      {
        heading: 'Result',
        strong: words ? `${words.head}.` : 'No result yet: the twenty are not full.',
        lines: words
          ? [
              ...words.sentences,
              ...words.beside,
              `Does not say ${words.doesNotSay}`,
              ...lasting.map((each) => {
                const said = lastingWords(each, label);
                return `${said.head}. ${said.sentence}`;
              }),
              ...goal.decisions.map(
                (decision) =>
                  `Decided in ${monthOf(decision.at)}: ${decision.kind.replace('-', ' ')}${decision.reason ? `. ${decision.reason}` : ''}`,
              ),
            ]
          : [],
      },
      {
        heading: 'Safety',
        ...safetySection(
          window.length > 0 ? window : record.cases.filter((each) => each.sequence > goal.afterSequence),
          record,
          goal.stepId,
        ),
      },
    ],
    notes: ticked(mine, noteIds),
    footnotes: FOOTNOTES,
    cautions: record.cautions,
    figures: figuresOf(result, lasting),
  };
}

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
  const operated = lists.every((list) => list.operated !== null)
    ? lists.reduce((sum, list) => sum + (list.operated ?? 0), 0)
    : null;
  const running = goals.filter(
    (goal) =>
      goal.setAt.slice(0, 7) <= month &&
      (goal.state !== 'closed' || goal.decisions.some((each) => each.at.slice(0, 7) >= month)),
  );
  const notes = record.reflections.filter((each) => each.at.slice(0, 7) === month);
  return {
    title: 'One month',
    period: monthName(month),
    sections: [
      {
        heading: 'Operations',
        lines: [
          `${counted(lists.length, 'list')}; ${operated === null ? 'how many were operated was not said' : `${cases.length} timed of ${operated} operated`}.`,
        ],
      },
      {
        heading: 'Goals',
        lines: running.length
          ? running.map((goal) => {
              const label =
                record.procedures.flatMap((each) => each.steps).find((each) => each.id === goal.stepId)?.label ??
                goal.stepId;
              const result = record.results.find(
                (each) => each.goalId === goal.id && each.storedAt.slice(0, 7) <= month,
              );
              return result
                ? `${capital(label)}: ${resultWords(result.outcome, { stepLabel: label, falsePerHundred: record.falsePerHundred, pausedBy: null }).head.toLowerCase()}.`
                : `${capital(label)}: under way.`;
            })
          : ['A month without a goal.'],
      },
      { heading: 'Safety', ...safetySection(cases, record, null) },
    ],
    notes: ticked(notes, noteIds),
    footnotes: FOOTNOTES,
    cautions: record.cautions,
    figures: [
      { name: 'timed', value: cases.length, low: null, high: null, n: operated, unit: 'cases' },
      { name: 'operated', value: operated, low: null, high: null, n: null, unit: 'operations' },
    ],
  };
}

/** A year on one page: a line a goal, and how often chance alone says *shorter* in such a year. */
export function yearReport(year: string, goals: readonly Goal[], record: ReportRecord): ReportView {
  const mine = goals.filter((goal) => goal.setAt.startsWith(year));
  const cases = record.cases.filter((each) => {
    const when = record.lists.find((list) => list.id === each.listId)?.when;
    return when?.kind === 'date' ? when.date.startsWith(year) : when?.kind === 'month' && when.month.startsWith(year);
  });
  return {
    title: 'A year of goals',
    period: year,
    sections: [
      {
        heading: 'Goals',
        lines: mine.map((goal) => {
          const label =
            record.procedures.flatMap((each) => each.steps).find((each) => each.id === goal.stepId)?.label ??
            goal.stepId;
          const result = [...record.results].reverse().find((each) => each.goalId === goal.id);
          const head = result
            ? resultWords(result.outcome, {
                stepLabel: label,
                falsePerHundred: record.falsePerHundred,
                pausedBy: null,
              }).head.toLowerCase()
            : 'no result yet';
          return `${monthOf(goal.setAt)}, ${inSentence(label)}: ${head}.`;
        }),
      },
      {
        heading: 'Read with this in mind',
        lines: [
          `When nothing has changed, one window still reads as shorter about ${record.falsePerHundred} times in 100; twelve windows of no change give one false result of this kind in about a quarter of years.`,
        ],
      },
      { heading: 'Safety', ...safetySection(cases, record, null) },
    ],
    notes: [],
    footnotes: FOOTNOTES,
    cautions: record.cautions,
    figures: [{ name: 'goals', value: mine.length, low: null, high: null, n: null, unit: 'goals' }],
  };
}

function doneLines(goal: Goal, reflections: readonly Reflection[]): string[] {
  if (goal.checkpoints.length === 0) return ['No checkpoints were set.'];
  return [
    ...goal.checkpoints.map((checkpoint) => {
      const answers = reflections
        .flatMap((each) => each.answers)
        .filter((answer) => answer.checkpointId === checkpoint.id);
      const said = answerSummary({ answers });
      return `${checkpoint.look} (${said || 'not answered'})`;
    }),
    `Answers: ${Object.values(ANSWER_WORDS).join(', ')}; by the surgeon's own review.`,
  ];
}

function safetySection(
  cases: readonly Case[],
  record: ReportRecord,
  stepId: string | null,
): { strong: string; lines: string[] } {
  const tally = eventTally(cases, record.lists, record.cases);
  const bounds = eventBounds(tally);
  const said = eventWords({
    cases: tally.cases,
    answered: tally.answered,
    events: tally.withEvent,
    nextDayKnown: tally.nextDay?.known ?? null,
    upper: bounds.kind === 'none' ? bounds.upper95 : null,
    low: bounds.kind === 'some' ? bounds.low : null,
    high: bounds.kind === 'some' ? bounds.high : null,
  });
  const taken = stepId === null ? null : takeovers(cases, stepId);
  return {
    strong: said.head,
    lines: [
      ...said.sentences,
      ...(tally.untimed
        ? [
            `Untimed operations on the same lists: ${tally.untimed.operated}; events answered for ${tally.untimed.answered}, ${tally.untimed.withEvent || 'none'} written down.`,
          ]
        : []),
      ...(taken && taken.taken > 0 ? [`The step was taken over in ${taken.taken} of ${taken.of} cases.`] : []),
    ],
  };
}

const ticked = (reflections: readonly Reflection[], ids: readonly string[]) =>
  reflections
    .filter((each) => ids.includes(each.id))
    .map((each) => ({ month: monthOf(each.at), saw: each.saw, willTry: each.willTry }));

function figuresOf(result: StoredResult | null, lasting: readonly Lasting[]): ReportView['figures'] {
  if (!result) return [];
  const ratio = (name: string, effect: StoredResult['outcome']['plain']) =>
    effect
      ? [
          {
            name,
            value: Math.exp(effect.estimate),
            low: Math.exp(effect.low),
            high: Math.exp(effect.high),
            n: effect.nWindow,
            unit: 'ratio of window to start',
          },
        ]
      : [];
  return [
    ...ratio('against the rest of the operation', result.outcome.against),
    ...ratio('this step alone', result.outcome.plain),
    ...ratio('the rest of the operation', result.outcome.rest),
    ...ratio('spread', result.outcome.spread),
    ...lasting.flatMap((each) => ratio(`following twenty ${each.nth}`, each.effect)),
  ];
}

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];
/** "2026-03" → "March 2026". */
export const monthName = (month: string) => `${MONTHS[Number(month.slice(5, 7)) - 1] ?? month} ${month.slice(0, 4)}`;
const monthOf = (at: string) => monthName(at.slice(0, 7));

/** The report as Markdown; text of reflections is quoted as written. */
export function reportMarkdown(report: ReportView): string {
  const quote = (text: string) =>
    text
      .split('\n')
      .map((line) => `> ${line}`)
      .join('\n');
  return [
    `# ${report.title}`,
    report.period,
    ...report.sections.map((section) =>
      [`## ${section.heading}`, ...(section.strong ? [`**${section.strong}**`] : []), ...section.lines]
        .filter(Boolean)
        .join('\n\n'),
    ),
    ...(report.notes.length > 0
      ? [
          '## From my notes',
          ...report.notes.map((note) =>
            [`${note.month}:`, quote(note.saw), ...(note.willTry ? [quote(note.willTry)] : [])].join('\n\n'),
          ),
        ]
      : []),
    '## How the numbers are made',
    report.footnotes.map((line) => `- ${line}`).join('\n'),
    report.cautions.map((line) => `*${line}*`).join('\n\n'),
  ]
    .join('\n\n')
    .concat('\n');
}
