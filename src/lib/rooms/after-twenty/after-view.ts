import { casesWithIds, type ChartSeries } from '../../practice';
import type { Goal, Lasting, SurgeonRecord } from '../../model';
import { listsOf } from '../../safety';
import { counted } from '../../format';
import {
  ANSWER_FIRST,
  waitsWords,
  lastedReadyWords,
  shortTimesWords,
  sinceReasonWords,
  sinceSentences,
  sinceTodayWords,
  type SinceRead,
} from '../../words';
import { runView, windowLabel, type RunView } from './after-chart';
import { chartTitle, resultView, type ResultView } from './after-result';
import { countWords, hiddenWords, leftOutSentence } from '../../words/reported-result';
import { doneTable, safetyTable, type CellTable } from './cell-table';
import { decisionsOf, type DecisionsView } from './decisions';
import { doneBesideWords } from './done-beside-words';
import { doneRows, type CellRowView } from './done-cells';
import { eventWordsOf } from '../forms/event-fields';
import { retiredWords } from './goal-lines';
import { aimedNotices } from '../goals/aimed-goal';
import { recordedOf, shortTimesState, type GoalReading } from '../goals/goal-reading';
import { otherChartsView, type OtherChartsView } from './other-charts';
import { safetyView, type SafetyView } from './safety-cells';
import { lastedWords, lastedToStore, type LastedView } from './lasted-words';
import { reopenedBecause, sinceRead } from './since-read';
import { waitsForReview } from '../cases/case-view';
import { asPlanned, asPlannedWords } from '../lists/timing-plan';
import { eventQuestion, EVENT_ASKS } from '../goals/event-question';
import { waitingForReview } from '../goals/waiting-for-review';
import { instantWords } from '../forms/when-words';
import { agreementOf, type Agreement } from '../mentor/agreement';

export type AfterView = {
  goalId: string;
  step: string;
  /** The headline: how far the window is. */
  head: string;
  state: Goal['state'];
  set: string;
  /** What is above everything else: a pause, a draft, a closed goal. */
  notices: readonly string[];
  count: string;
  /** How many of the operations were timed, and whether as planned. */
  timed: string | null;
  /** `beside`: how what was done relates to the times, where enough was answered before they were seen. */
  done: { rows: readonly CellRowView[]; lead: string; beside: readonly string[]; table: CellTable<'done'> };
  time: TimeView;
  safety: SafetyView & { signal: string | null; table: CellTable<'events'> };
  reviews: readonly ReviewView[];
  /** Serious events of operations that were not timed: reviewed on the page of their list. */
  reviewsElsewhere: readonly { words: string; href: string }[];
  /** EWMA and CUSUM; off while a window runs. */
  otherCharts: OtherChartsView | null;
  decisions: DecisionsView;
  /** What a mentor and the surgeon wrote apart, laid side by side; `null`: no review that both have written. */
  seenByTwo: Agreement | null;
};

/** Today's figure beside the stored one, and what changed since. */
export type TodayView = { sentence: string; reasons: readonly string[] };

export type TimeView =
  | { kind: 'none'; sentence: string }
  | { kind: 'ready'; sentence: string; offer: string; earlier: ResultView | null }
  | { kind: 'hidden'; sentence: string; offer: string; earlier: ResultView | null }
  | { kind: 'so-far'; sentence: string; run: RunView | null; earlier: ResultView | null }
  | {
      kind: 'result';
      result: ResultView;
      /** Medians as recorded, this step alone, and what goes with the eyes. */
      recorded: readonly string[];
      earlier: ResultView | null;
      run: RunView | null;
      today: TodayView | null;
      /** Whether it lasted, as it was read, with what today would give where that differs. */
      lasting: readonly LastedView[];
      /** A following twenty is complete and was not read. */
      lastingReady: { sentence: string; offer: string } | null;
      /** Very short times to look at again, with their cases; `null` where there are no more than chance would give. */
      shortTimes: { sentence: string; cases: readonly { id: string; code: string }[] } | null;
      leftOut: string;
    };

export type { ResultView } from './after-result';
export type ReviewView = { caseId: string; code: string; index: number; words: string };

export type AfterSource = {
  state: GoalReading;
  record: SurgeonRecord;
  lasting: readonly Lasting[];
  /** The chart over the windows that may be seen; `null` where none may, or nothing can be drawn. */
  series: ChartSeries | null;
  /** The words under a signal of the monitor. */
  signal: string;
};

/** What you did, time, safety: everything of one goal that may be seen today. */
export function afterView(source: AfterSource): AfterView {
  const { state, record } = source;
  const { goal, procedure, step, window, windowCases, spanCases, stored } = state;
  const so = windowCases.length;
  const rows = doneRows(goal, windowCases, record.reflections, procedure);
  const safety = safetyView(state, record);
  return {
    goalId: goal.id,
    step: step.label,
    head: window.full
      ? `${step.label}, after ${window.need.cases === 40 ? 'forty' : 'twenty'} cases`
      : `${step.label}: ${so} of ${window.need.cases} counted`,
    state: goal.state,
    set: `Set on ${instantWords(goal.setAt)}${goal.agreedAt ? `, agreed on ${instantWords(goal.agreedAt)}` : ''}, with ${counted(goal.baseline.caseIds.length, 'baseline case')}.`,
    notices: noticesOf(source),
    count: countWords(window, so),
    timed:
      so === 0 ? null : asPlannedWords(asPlanned(windowCases, record.lists, record.profile.timingPlan, record.cases)),
    done: {
      rows,
      table: doneTable(rows),
      lead:
        so === 0
          ? 'No case of the window yet: it begins with the next new list.'
          : 'Your own account, from your notes after review.',
      beside: window.full && stored.length > 0 ? doneBesideWords(goal, record.reflections, source.series) : [],
    },
    time: timeOf(source),
    safety: {
      ...safety,
      table: safetyTable(safety.rows),
      signal: state.monitorSignalled ? source.signal : null,
    },
    reviews: spanCases.flatMap((each) =>
      (each.events ?? []).flatMap((event, index) =>
        waitsForReview(event)
          ? [{ caseId: each.id, code: each.code, index, words: eventWordsOf(event, procedure) }]
          : [],
      ),
    ),
    reviewsElsewhere: listsOf(spanCases, record.lists).flatMap((list) =>
      list.untimedEvents.filter(waitsForReview).map((event) => ({
        words: eventWordsOf(event, procedure),
        href: `/cases/lists/${list.id}#untimed`,
      })),
    ),
    otherCharts:
      window.full && stored.length > 0
        ? otherChartsView(source.series, goal.baseline.seed, (period) => windowLabel(period, window.need.cases))
        : null,
    decisions: decisionsOf(state),
    seenByTwo: agreementOf(goal),
  };
}

function noticesOf({ state, record }: AfterSource): string[] {
  const { goal, step, gate, stored, waitsForReview } = state;
  const reopened = reopenedBecause(state);
  const question = eventQuestion(state);
  return [
    ...(goal.state === 'draft'
      ? [
          'This goal is a draft until it is agreed with your supervisor: off-patient drills only, and no case counts yet.',
        ]
      : []),
    ...(goal.state === 'paused' ? ['This goal is paused.'] : []),
    ...(step.retired && goal.state !== 'closed' ? [retiredWords(step.label)] : []),
    ...aimedNotices(state, record.lists),
    ...(reopened.length > 0
      ? [`Since this result was read: ${reopened.join(' ')} The numbers below stay as they were read.`]
      : []),
    ...(stored.length === 0 && !waitsForReview && gate && !gate.open ? gate.because : []),
    ...(question ? [`${question} ${EVENT_ASKS}`] : []),
  ];
}

function timeOf(source: AfterSource): TimeView {
  const { state } = source;
  const { goal, window, stored, outcome } = state;
  const label = state.step.label;
  const lengthWord = window.need.cases === 40 ? 'forty' : 'twenty';
  const firstLook = stored.find((each) => each.look === 'first');
  const latest = stored.find((each) => each.look === state.look);
  const earlier: ResultView | null =
    firstLook && state.look === 'second'
      ? resultView(
          firstLook.outcome,
          label,
          `First look, at twenty, read on ${instantWords(firstLook.storedAt)}.`,
          sinceSentencesOf(sinceRead(state, firstLook)),
        )
      : null;

  const waiting = waitingForReview(source.record, goal).length;
  if (goal.state === 'draft') return { kind: 'none', sentence: 'Nothing is counted while the goal is a draft.' };
  const shown = latest?.outcome ?? (state.waitsForReview ? outcome : null);
  if (shown) {
    const since = latest ? sinceRead(state, latest) : null;
    return {
      kind: 'result',
      result: resultView(
        shown,
        label,
        latest
          ? `Stored on ${instantWords(latest.storedAt)}, and shown as it was.`
          : 'Not stored yet: that happens once the review is written.',
      ),
      recorded: latest ? recordedOf(state) : [],
      earlier,
      run: runOf(
        source,
        chartTitle(
          label,
          stored.find((each) => each.look === state.look)?.outcome ?? outcome,
          window,
          latest?.lasted?.map(({ lasting }) => lasting) ?? [],
        ),
        window.windows.length,
      ),
      today: todayOf(since),
      lasting: latest ? lastedWords(latest, source.lasting, label) : [],
      lastingReady: lastingReady(source, waiting),
      shortTimes: shortTimesOf(source),
      leftOut: leftOutSentence(window),
    };
  }
  if (state.toStore)
    return {
      kind: 'ready',
      sentence: [
        `The ${lengthWord} are complete. The result is stored when you read it, once, and shown unchanged from then on.`,
        ...(waiting > 0 ? [`${waitsWords(waiting)} ${ANSWER_FIRST}`] : []),
      ].join(' '),
      offer: 'Read the result',
      earlier,
    };
  if (goal.measure === 'safety')
    return { kind: 'none', sentence: 'This goal is not about time: no step time of its cases is judged.' };
  if (goal.timesShown.length > 0)
    return {
      kind: 'so-far',
      sentence: `Shown because you asked on ${instantWords(goal.timesShown[0] ?? '')}; this is noted with the goal. The result still comes at ${lengthWord}: no median, no limit and no verdict before that.`,
      run: runOf(source, `${label}: the cases so far.`, 0),
      earlier,
    };
  return {
    kind: 'hidden',
    sentence: hiddenWords(window),
    offer: `Show them; the result still comes at ${lengthWord}`,
    earlier,
  };
}

/** What is offered where a following twenty is complete. Answers come first, as before the result. */
function lastingReady({ state, lasting }: AfterSource, waiting: number): { sentence: string; offer: string } | null {
  const fresh = lastedToStore(state.stored.at(-1), lasting, '').length;
  if (fresh === 0) return null;
  const waits = waiting > 0 ? ` ${waitsWords(waiting)} ${ANSWER_FIRST}` : '';
  return { sentence: lastedReadyWords(fresh, waits), offer: 'Read whether it lasted' };
}

const sinceSentencesOf = (since: SinceRead | null) => (since ? sinceSentences(since) : []);

const todayOf = (since: SinceRead | null): TodayView | null =>
  since && {
    sentence: sinceTodayWords(since.today),
    reasons: since.reasons.map((reason) => sinceReasonWords(reason, true)),
  };

function shortTimesOf({ record, state }: AfterSource) {
  const found = shortTimesState(record, state);
  return (
    found && {
      sentence: shortTimesWords(found),
      cases: casesWithIds(state.cases, found.caseIds).map(({ id, code }) => ({ id, code })),
    }
  );
}

function runOf({ series, state, record }: AfterSource, title: string, full: number): RunView | null {
  if (!series) return null;
  return runView({
    series,
    title,
    baselineIds: state.goal.baseline.caseIds,
    windows: state.drawn,
    full,
    length: state.window.need.cases,
    cases: state.cases,
    procedureId: state.procedure.id,
    reflections: record.reflections,
  });
}
