import type { Audit, Pattern, StepAudit } from '../audit';
import type { Case, Procedure, Step } from '../model';
import type { Guidance } from '../rules/types';
import { eventTally } from '../safety';
import { counted, clock, inSentence, listed, ofHundred, prose } from '../words';
import type { View } from './choose-view';

/** Below this the panel says that only very large differences would show. */
const PATTERN_CASES = 40;

export type StepView = {
  id: string;
  label: string;
  /** Where *Set a goal on this step* leads. */
  planHref: string;
  sentences: readonly string[];
  /** Said instead of inviting to shorten. */
  notToShorten: string | null;
  patterns: {
    lead: string;
    rows: readonly PatternRowView[];
    /** What was looked at and not clear. */
    looked: string | null;
  };
  run: { reading: string; name: string; cases: readonly RunCaseView[] };
  counts: readonly string[];
  table: { columns: { label: string; number?: boolean }[]; rows: string[][] };
};

export type PatternRowView = {
  id: string;
  label: string;
  under: string;
  ratio: number;
  low: number;
  high: number;
  words: string;
  bold: boolean;
};

export type RunCaseView = {
  id: string;
  code: string;
  period: number;
  ratio: number | null;
  leftOut: boolean;
  list: string | null;
  note: boolean;
  events: 'event' | 'not-answered' | 'none';
  said: string;
  mark?: string;
};

/** Marks on the run: which case is the smooth one, which the longer. */
export type Marked = Readonly<Record<string, string>>;

/** Everything about one step but its guidance and its pair. `null`: the step has no time in this record. */
export function stepView(
  audit: Audit,
  stepId: string,
  cases: readonly Case[],
  { marked, query }: { marked: Marked; query: { procedure: string | null; view: View | null } },
): StepView | null {
  const step = audit.steps.find((each) => each.stepId === stepId);
  const known = audit.procedure.steps.find((each) => each.id === stepId);
  if (!step || !known || step.n === 0) return null;
  const shown = audit.caseIds.flatMap((id) => cases.find((each) => each.id === id) ?? []);
  const run = runOf(audit, stepId, shown, marked);
  return {
    id: stepId,
    label: step.label,
    planHref: planHref(stepId, query),
    sentences: usualSentences(step),
    notToShorten: step.notToShorten
      ? `${step.label} is not to be shortened. You can look at doing it the same way each time.`
      : null,
    patterns: patternsOf(audit, stepId),
    run: {
      reading: `100 = as the rest of the same operation would lead you to expect. ${
        audit.orderKnown ? 'In order of time.' : 'Their order in time is not known.'
      }`,
      name: `latest ${run.length}`,
      cases: run,
    },
    counts: countSentences(step, known, shown, audit.procedure),
    table: {
      columns: [
        { label: 'Case' },
        { label: 'As recorded', number: true },
        { label: 'Times your usual, adjusted', number: true },
        { label: 'Against the rest (100 = as usual)', number: true },
        { label: 'Events' },
      ],
      rows: run.map(({ id, code, ratio, events }) => {
        const dot = step.dots.find((each) => each.caseId === id);
        return [
          code,
          dot ? clock(dot.seconds) : 'not done',
          dot ? dot.ratio.toFixed(2) : '',
          ratio === null ? 'cannot be said' : String(Math.round(ratio * 100)),
          { event: 'event', 'not-answered': 'not answered', none: 'none' }[events],
        ];
      }),
    },
  };
}

function planHref(stepId: string, { procedure, view }: { procedure: string | null; view: View | null }): string {
  const query = new URLSearchParams({ step: stepId });
  if (procedure) query.set('procedure', procedure);
  if (view) query.set('view', view);
  return `/plan?${query}`;
}

function usualSentences(step: StepAudit): string[] {
  const { usual, oneInFive, difference, differenceInterval, usualRange, reference, n } = step;
  if (usual === null || oneInFive === null) return [];
  const times = (ratio: number) => String(Number(ratio.toFixed(1)));
  return [
    `It usually takes ${prose(usual)}; one in five of your own ${counted(n, 'case')} took ${prose(oneInFive)} or less.`,
    ...(difference !== null && differenceInterval && !step.notToShorten
      ? [
          `Between the two lie ${prose(difference)} a case (${prose(differenceInterval.low)} to ${prose(differenceInterval.high)}).`,
        ]
      : []),
    ...(usualRange
      ? [`Two thirds of your cases lie between ${prose(usualRange.low)} and ${prose(usualRange.high)}.`]
      : []),
    ...(reference
      ? [
          `In the reference set it usually takes ${prose(reference.usual)}: yours is ${times(reference.ratio)} times that (${times(reference.low)} to ${times(reference.high)}; ${counted(reference.n, 'case')}).`,
        ]
      : []),
  ];
}

function patternsOf(audit: Audit, stepId: string): StepView['patterns'] {
  const shown = audit.patterns.filter((each) => each.stepId === stepId && each.shown);
  const looked = audit.lookedAt.find((each) => each.stepId === stepId)?.labels ?? [];
  const few =
    audit.caseIds.length < PATTERN_CASES
      ? ` With ${counted(audit.caseIds.length, 'case')} only very large differences would show.`
      : '';
  return {
    lead:
      (shown.length === 0
        ? looked.length === 0
          ? 'Too few cases to look at when this step takes longer.'
          : 'Nothing that was looked at goes clearly with a longer or shorter time.'
        : 'These go with a longer or shorter time. They need not be its cause.') + few,
    rows: shown.map(patternRow),
    looked: looked.length > 0 ? `Looked at and not clear: ${listed(looked)}.` : null,
  };
}

function patternRow({ factor, kind, label, nWith, nWithout, ratio, low, high }: Pattern): PatternRowView {
  const times = (value: number) => String(Number(value.toFixed(value < 1 ? 2 : 1)));
  return {
    id: factor,
    label,
    under:
      kind === 'over-time'
        ? `the latest ${nWith} against the ${nWithout} before them`
        : `${counted(nWith, 'case')} with, ${nWithout} without`,
    ratio,
    low,
    high,
    words: `about ${times(ratio)} times as long (${times(low)} to ${times(high)})`,
    bold: false,
  };
}

/** This step against the other steps of the same case, each over its own usual; needs three others. */
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
      said:
        dot && ratio !== null
          ? `${clock(dot.seconds)} as recorded; ${Math.round(ratio * 100)} against the rest of the operation`
          : dot
            ? `${clock(dot.seconds)} as recorded; too few other steps to compare with`
            : 'not done, or by other hands',
      ...(marked[each.id] ? { mark: marked[each.id] } : {}),
    };
  });
}

function countSentences(step: StepAudit, known: Step, shown: readonly Case[], procedure: Procedure): string[] {
  const reason = procedure.waitingReasons.find((each) => each.id === step.waitingReason)?.label ?? step.waitingReason;
  const tally = eventTally(shown);
  const events = tally.byStep[step.stepId] ?? 0;
  return [
    step.wentBackPerCase === null || step.wentBackPerCase === 0
      ? 'Went back: in none of these cases.'
      : `Went back: ${ofHundred(step.wentBackPerCase)} times in 100 cases. The end point was then not reached the first time.`,
    step.waitingPerCase > 0
      ? `Waiting in or before this step: ${prose(step.waitingPerCase)} a case${reason ? `, mostly ${inSentence(reason)}` : ''}. It is not counted as step time, and part of it is checking.`
      : 'No waiting was noted in this step.',
    tally.answered === 0
      ? 'Events were not asked in these cases: nothing can be said about safety.'
      : events === 0
        ? `No event is tied to this step (events answered in ${tally.answered} of ${counted(shown.length, 'case')}). That cannot show that it is safe.`
        : `${counted(events, 'case')} with an event tied to this step, of ${tally.answered} in which events were answered.`,
    ...(known.keptParts.length > 0
      ? [`Outside its time, and never shortened: ${listed(known.keptParts.map(({ label }) => inSentence(label)))}.`]
      : []),
  ];
}

/** The written page of a step, or `null`. */
export function guidanceOf(guidance: readonly Guidance[], procedure: Procedure, stepId: string): Guidance | null {
  return guidance.find((each) => each.procedureId === procedure.id && each.step === stepId) ?? null;
}
