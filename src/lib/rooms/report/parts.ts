import { type Case, type Erased, type Goal, type ListRecord, type Reflection, procedureOf } from '../../model';
import { eventBounds, eventTally, takeovers, takeoversOfAny, type Takeovers } from '../../safety';
import { inSentence, listed } from '../../format';
import { fateName, goalEventWords, namedEvents, takeoverWords, type FateReason } from '../../words';
import { erasedIn, erasedOfLists } from '../cases/erase-words';
import type { GoalLine } from '../after-twenty/goal-lines';
import type { GoalReading } from '../goals/goal-reading';
import { safetyWords, untimedWords } from '../../words/safety';
import { goalStanding } from '../goals/goal-standing';
import { eventsOf, safetyOfGoal } from '../after-twenty/safety-of-goal';
import { monthWords } from '../forms/when-words';
import type { ReportRecord, ReportView } from './report';

type SafetyPart = { section: ReportView['sections'][number]; figures: ReportView['figures'] };

/** The month of an instant, in words. */
export const monthOf = (at: string): string => monthWords(at.slice(0, 7));

/** Safety in the span of one goal, as After twenty says it, with the untimed operations in words. */
export function goalSafety(state: GoalReading, record: ReportRecord): SafetyPart {
  const { head, sentences, takeovers: said } = safetyOfGoal(state, record);
  const taken = takeovers(state.spanCases, state.goal.stepId);
  const { baseline, window } = state.goal.erased ?? {};
  return {
    section: {
      heading: 'Safety',
      strong: head,
      lines: [...sentences, ...untimedWords(state.spanCases, record.cases, record.lists), ...(said ? [said] : [])],
    },
    figures: [
      ...eventFigures(state.spanCases),
      ...(taken ? takeoverFigures(taken, 'the step') : []),
      ...erasedFigures(baseline, 'baseline cases'),
      ...erasedFigures(window, 'cases of the window'),
    ],
  };
}

/** Safety in a month or a year: of the steps its goals are about by name, and of the operation where there is none. */
export function safetyOfTime(lists: readonly ListRecord[], goals: readonly Goal[], record: ReportRecord): SafetyPart {
  const heading = 'Safety';
  const ids = new Set(lists.map(({ id }) => id));
  const cases = record.cases.filter(({ listId }) => listId !== null && ids.has(listId));
  const gone = erasedOfLists(lists);
  if (cases.length === 0) return { section: { heading, strong: 'No timed case.', lines: gone }, figures: [] };
  const steps = stepsOf(goals, record);
  const names = steps.map(({ name }) => name);
  const about = names.length === 0 ? 'the operation is' : `${listed(names)} ${names.length === 1 ? 'is' : 'are'}`;
  const { head, sentences } = safetyWords(cases, record.cases, record.lists, about);
  const takeoversSaid = [
    { what: 'the operation or a step of it', taken: takeoversOfAny(cases) },
    ...steps.map(({ name, procedureId, stepId }) => ({
      what: name,
      taken: takeovers(
        cases.filter((one) => one.procedureId === procedureId),
        stepId,
      ),
    })),
  ].flatMap(({ what, taken }) => (taken ? [{ what, taken }] : []));
  return {
    section: {
      heading,
      strong: head,
      lines: [
        ...inOne([...sentences, ...namedByProcedure(cases, record)]),
        ...goals.flatMap((goal) => {
          const standing = goalStanding(record, goal);
          return goalEventWords(eventsOf(standing, record), standing.procedure, inSentence(standing.step.label));
        }),
        ...inOne([...gone, ...(steps.length === 0 ? ['No step was under a goal.'] : [])]),
        ...untimedWords(cases, record.cases, record.lists),
        ...takeoversSaid.map(({ what, taken }) => takeoverWords(taken, what)),
      ],
    },
    figures: [
      ...eventFigures(cases),
      ...takeoversSaid.flatMap(({ what, taken }) => takeoverFigures(taken, what)),
      ...erasedFigures(erasedIn(lists), 'cases of these lists'),
    ],
  };
}

export const linesOf = (goals: readonly Goal[], { lines }: ReportRecord): GoalLine[] =>
  goals.flatMap(({ id }) => lines.find((line) => line.id === id) ?? []);

/** A goal in one line, with what changed since its result was read. */
export const lineText = ({ step, said, since }: GoalLine): string => [`${step}: ${said}.`, ...since].join(' ');

/** What became of the cases a result rests on, a row each; `of`: the step, where there is more than one goal. */
export const sinceFigures = (fates: readonly FateReason[], of: string | null): ReportView['figures'] =>
  fates.map((reason) => ({
    name: `${of ? `${of}: ` : ''}${fateName(reason)}`,
    value: reason.numbers.cases,
    low: null,
    high: null,
    n: reason.numbers.of,
    unit: 'cases',
  }));

/** One paragraph: the report has one side. */
export const inOne = (sentences: readonly string[]): string[] => (sentences.length > 0 ? [sentences.join(' ')] : []);

/** Each step that a goal is about, once, by its name inside a sentence. */
function stepsOf(goals: readonly Goal[], record: ReportRecord) {
  const named = goals.map(({ procedureId, stepId }) => {
    const step = procedureOf(record, procedureId).steps.find(({ id }) => id === stepId);
    return { procedureId, stepId, name: inSentence(step?.label ?? stepId) };
  });
  return [...new Map(named.map((each) => [`${each.procedureId} ${each.stepId}`, each])).values()];
}

/** Erased cases with events answered, of all that were erased. */
const erasedFigures = (erased: Erased | undefined, part: string): ReportView['figures'] =>
  erased && erased.answered > 0
    ? [
        {
          name: `${part} erased with events answered`,
          value: erased.answered,
          low: null,
          high: null,
          n: erased.cases,
          unit: 'cases',
        },
      ]
    : [];

/** Each event of these cases by name, in the words of its own procedure. */
const namedByProcedure = (cases: readonly Case[], { procedures }: ReportRecord): string[] =>
  procedures.flatMap((procedure) =>
    namedEvents(
      cases.filter(({ procedureId }) => procedureId === procedure.id).flatMap(({ events }) => events ?? []),
      procedure,
    ),
  );

/** Cases with an event, of those answered; a rate only where some are answered with none. */
function eventFigures(cases: readonly Case[]): ReportView['figures'] {
  const tally = eventTally(cases);
  const { answered, withEvent } = tally;
  const bounds = eventBounds(tally);
  const [low, high] =
    bounds.kind === 'none' ? [0, bounds.upper95] : bounds.kind === 'some' ? [bounds.low, bounds.high] : [null, null];
  const unit = 'share of answered cases';
  return [
    {
      name: 'cases with an event',
      value: answered === 0 ? null : withEvent,
      low: null,
      high: null,
      n: answered,
      unit: 'cases',
    },
    ...(low === null
      ? []
      : [{ name: 'share of cases with an event', value: withEvent / answered, low, high, n: answered, unit }]),
  ];
}

const takeoverFigures = ({ taken, of, estimate, low, high }: Takeovers, what: string): ReportView['figures'] => [
  { name: `takeovers of ${what}`, value: taken, low: null, high: null, n: of, unit: 'cases' },
  { name: `share of takeovers of ${what}`, value: estimate, low, high, n: of, unit: 'share of cases' },
];

/** The reflections ticked, with their month; one of which nothing may go out is not there. */
export const ticked = (reflections: readonly Reflection[], ids: readonly string[]): ReportView['notes'] =>
  reflections
    .filter((each) => ids.includes(each.id) && (each.saw !== '' || each.willTry !== ''))
    .map((each) => ({ month: monthOf(each.at), saw: each.saw, willTry: each.willTry }));
