import type { Goal } from '../../model';
import { listsOf } from '../../safety';
import { windowLabel } from './after-chart';
import { pauseWords } from '../../words';
import { countWords } from '../../words/reported-result';
import { doneTable, safetyTable, type CellTable } from './cell-table';
import { decisionsOf, type DecisionsView } from './decisions';
import { doneBesideOf } from './done-beside-of';
import { doneRows, type CellRowView } from './done-cells';
import { eventWordsOf } from '../forms/event-fields';
import { aimedNotices } from '../goals/aimed-goal';
import { otherChartsView, type OtherChartsView } from './other-charts';
import { safetyView, type SafetyView } from './safety-cells';
import { reopenedBecause } from './since-read';
import { waitsForReview } from '../cases/case-view';
import { asPlanned, asPlannedWords } from '../lists/timing-plan';
import {
  DRAFT_GOAL,
  NO_CASE_YET,
  OWN_ACCOUNT,
  PAUSED_GOAL,
  reopenedWords,
  retiredWords,
  setOnWords,
} from '../../words/after-twenty';
import { EVENT_ASKS } from '../../words/event-question';
import { eventQuestion } from '../goals/event-question';
import { instantWords } from '../forms/when-words';
import { agreementOf, type Agreement } from '../mentor/agreement';
import { timeOf, type AfterSource, type TimeView } from './time-view';

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

export type { ResultView } from './after-result';
export type ReviewView = { caseId: string; code: string; index: number; words: string };

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
    set: setOnWords(
      instantWords(goal.setAt),
      goal.agreedAt ? instantWords(goal.agreedAt) : null,
      goal.baseline.caseIds.length,
    ),
    notices: noticesOf(source),
    count: countWords(window, so),
    timed:
      so === 0 ? null : asPlannedWords(asPlanned(windowCases, record.lists, record.profile.timingPlan, record.cases)),
    done: {
      rows,
      table: doneTable(rows),
      lead: so === 0 ? NO_CASE_YET : OWN_ACCOUNT,
      beside: window.full && stored.length > 0 ? doneBesideOf(goal, record.reflections, source.series) : [],
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
    ...(goal.state === 'draft' ? [DRAFT_GOAL] : []),
    ...(goal.state === 'paused' ? [PAUSED_GOAL] : []),
    ...(step.retired && goal.state !== 'closed' ? [retiredWords(step.label)] : []),
    ...aimedNotices(state, record.lists),
    ...(reopened.length > 0 ? [reopenedWords(reopened)] : []),
    ...(stored.length === 0 && !waitsForReview && gate && !gate.open ? gate.reasons.map(pauseWords) : []),
    ...(question ? [`${question} ${EVENT_ASKS}`] : []),
  ];
}
