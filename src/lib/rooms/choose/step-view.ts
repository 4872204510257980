import type { Audit, StepAudit } from '../../audit';
import { timingError } from '../../audit/timing-error';
import type { Case, Procedure } from '../../model';
import type { Guidance } from '../../rules/types';
import { counted, clock, prose, timesAsLong } from '../../format';
import { othersCases, shorterCannotWords } from '../../words';
import { timingErrorWords } from '../../words/timing-error';
import { eyeWords } from '../cases/eye-words';
import { lanesOf, notAsked, type Lane, type RunCaseView } from '../after-twenty/run-lanes';
import type { View } from './choose-view';
import { stepCounts, type StepCount } from './step-counts';
import { chiefPattern, stepHead } from './step-head';
import { stepPatterns, type StepPatterns } from './step-patterns';
import { stepSplit, type StepSplit } from './step-split';

export type StepView = {
  id: string;
  label: string;
  /** When it takes longer, in one line. */
  head: string;
  /** Where *Set a goal on this step* leads; `null` on a retired step. */
  planHref: string | null;
  sentences: readonly string[];
  /** Said instead of inviting to shorten. */
  notToShorten: string | null;
  patterns: StepPatterns;
  split: StepSplit | null;
  run: {
    title: string;
    reading: string;
    key: string;
    name: string;
    cases: readonly RunCaseView[];
    lanes: readonly Lane[];
  };
  /** The pages on how the numbers of the first sentences are made. */
  how: readonly ('median' | 'spread' | 'reference' | 'timing-error')[];
  counts: readonly StepCount[];
  table: StepTableView;
};

type StepTableView = {
  columns: {
    label: string;
    number?: boolean;
    method?: 'step-time' | 'adjusted' | 'case-by-case' | 'events';
  }[];
  rows: string[][];
};

/** Marks on the run: which case is the shorter one, which the longer. */
export type Marked = Readonly<Record<string, string>>;

/** Everything about one step but its guidance and its pair. `null`: the step has no time in this record. */
export function stepView(
  audit: Audit,
  stepId: string,
  cases: readonly Case[],
  { marked, query }: { marked: Marked; query: { procedure: string | null; view: View | null; by?: string | null } },
): StepView | null {
  const step = audit.steps.find((each) => each.stepId === stepId);
  const known = audit.procedure.steps.find((each) => each.id === stepId);
  if (!step || !known || step.n === 0) return null;
  const byId = new Map(cases.map((each) => [each.id, each]));
  const shown = audit.caseIds.flatMap((id) => byId.get(id) ?? []);
  const run = runOf(audit, stepId, shown, marked);
  const lanes = lanesOf(run, ['lists', 'events']);
  const twice = timingError(shown, stepId);
  const patterns = stepPatterns(audit, stepId);
  const chief = chiefPattern(audit.patterns.filter((each) => each.stepId === stepId && each.shown));
  return {
    id: stepId,
    label: step.label,
    head: stepHead(step, chief, patterns.looked !== null),
    planHref: step.retired ? null : planHref(stepId, query),
    sentences: [
      ...(step.retired ? [RETIRED] : []),
      ...timeSentences(step),
      ...(twice ? timingErrorWords(twice, step.spread) : []),
    ],
    notToShorten: step.notToShorten
      ? `${step.label} is not to be shortened. You can look at doing it the same way each time.`
      : null,
    patterns,
    split: stepSplit(audit, stepId, shown, { marked, asked: query.by ?? null, chief }),
    how: [
      'median',
      ...(step.twoThirds ? (['spread'] as const) : []),
      ...(step.reference ? (['reference'] as const) : []),
      ...(twice ? (['timing-error'] as const) : []),
    ],
    run: {
      title: `${step.label}, case by case, against the rest of the operation`,
      reading: [
        '100 = as the rest of the same operation would lead you to expect. Up is longer.',
        audit.orderKnown ? 'In order of time.' : 'Their order in time is not known.',
        ...notAsked(run),
      ].join(' '),
      key: lanes.includes('events') ? 'E event · ? not answered · blank: answered, none' : '○ one case',
      name: `latest ${run.length}`,
      cases: run,
      lanes,
    },
    counts: stepCounts(step, known, shown, audit.procedure),
    table: {
      columns: [
        { label: 'Case' },
        { label: 'As recorded', number: true, method: 'step-time' },
        { label: 'Times your median, adjusted', number: true, method: 'adjusted' },
        { label: 'Against the rest (100 = as expected)', number: true, method: 'case-by-case' },
        { label: 'Events', method: 'events' },
      ],
      rows: run.map(({ id, code, ratio, events }) => {
        const dot = step.dots.find((each) => each.caseId === id);
        return [
          code,
          dot ? clock(dot.seconds) : 'no time of yours',
          dot ? dot.ratio.toFixed(2) : '',
          ratio === null ? 'cannot be said' : String(Math.round(ratio * 100)),
          { event: 'event', 'not-answered': 'not answered', none: 'none' }[events],
        ];
      }),
    },
  };
}

const RETIRED =
  'This step is retired: its timings stay, it is no longer asked for, and no goal can be set on it. Settings brings it back.';

function planHref(stepId: string, { procedure, view }: { procedure: string | null; view: View | null }): string {
  const query = new URLSearchParams({ step: stepId });
  if (procedure) query.set('procedure', procedure);
  if (view) query.set('view', view);
  return `/plan?${query}`;
}

function timeSentences(step: StepAudit): string[] {
  const { median, p20, difference, differenceInterval, differenceCannot, twoThirds, reference, n } = step;
  const { differenceSameEyes: same, differenceWithEye: withEye } = step;
  if (median === null) return [];
  const times = reference && timesAsLong(reference);
  return [
    p20 === null
      ? n === 1
        ? `It took ${prose(median)} in the one case you have.`
        : `Its median is ${prose(median)}, in your own ${counted(n, 'case')}.`
      : `Its median is ${prose(median)}; one in five of your own ${counted(n, 'case')} took ${prose(p20)} or less.`,
    ...(differenceCannot && !step.notToShorten ? [shorterCannotWords(differenceCannot)] : []),
    ...(difference !== null && differenceInterval && !step.notToShorten
      ? [
          same === null
            ? `Median and 20th percentile are ${prose(difference)} apart (${prose(differenceInterval.low)} to ${prose(differenceInterval.high)}).`
            : `Median and 20th percentile are ${prose(difference)} apart. Among the same kind of eye, in times adjusted for the eye, ${prose(same)} is left (${prose(differenceInterval.low)} to ${prose(differenceInterval.high)})${withEye ? `; ${prose(withEye)} goes with the eye` : ''}.`,
        ]
      : []),
    ...(twoThirds
      ? [`Two thirds of your cases took between ${prose(twoThirds.low)} and ${prose(twoThirds.high)}.`]
      : []),
    ...(reference && times
      ? [
          `In the reference set the median is ${prose(reference.median)}; ${step.adjusted ? 'adjusted for the eye, ' : ''}yours is about ${times.ratio} times as long (${times.low} to ${times.high}; ${othersCases(reference)}).`,
        ]
      : []),
  ];
}

/** This step against the other steps of the same case, each over its own median; needs three others. */
function runOf(audit: Audit, stepId: string, shown: readonly Case[], marked: Marked): RunCaseView[] {
  const logs = new Map(
    audit.steps.map((step) => [step.stepId, new Map(step.dots.map((dot) => [dot.caseId, Math.log(dot.ratio)]))]),
  );
  const seconds = new Map(audit.steps.find((each) => each.stepId === stepId)?.dots.map((dot) => [dot.caseId, dot]));
  return shown.map((each): RunCaseView => {
    const own = logs.get(stepId)?.get(each.id);
    const others = [...logs].flatMap(([id, values]) => (id === stepId ? [] : (values.get(each.id) ?? [])));
    const rest = others.reduce((sum, value) => sum + value, 0) / others.length;
    const ratio = own === undefined || others.length < 3 ? null : Math.exp(own - rest);
    const dot = seconds.get(each.id);
    return {
      id: each.id,
      code: each.code,
      period: 0,
      ratio,
      leftOut: false,
      list: each.listId,
      note: false,
      events: each.events === null ? 'not-answered' : each.events.length > 0 ? 'event' : 'none',
      said: [
        dot && ratio !== null
          ? `${clock(dot.seconds)} as recorded; ${Math.round(ratio * 100)} against the rest of the operation`
          : dot
            ? `${clock(dot.seconds)} as recorded; too few other steps to compare with`
            : 'no time of yours: not done, not timed, or done by someone else',
        eyeWords(each, audit.procedure),
      ]
        .filter(Boolean)
        .join('; '),
      ...(marked[each.id] ? { mark: marked[each.id] } : {}),
    };
  });
}

/** The written page of a step, or `null`. */
export function guidanceOf(guidance: readonly Guidance[], procedure: Procedure, stepId: string): Guidance | null {
  return guidance.find((each) => each.procedureId === procedure.id && each.step === stepId) ?? null;
}
