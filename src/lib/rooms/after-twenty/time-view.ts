import { stepSecondsOf } from '../../audit';
import { clock } from '../../format';
import type { Lasting, SurgeonRecord } from '../../model';
import { casesWithIds, type ChartSeries } from '../../practice';
import {
  ANSWER_FIRST,
  lastedReadyWords,
  lastingWaitsWords,
  shortTimesWords,
  sinceReasonWords,
  sinceSentences,
  sinceTodayWords,
  waitsWords,
  type SinceRead,
} from '../../words';
import {
  chartTitle,
  DRAFT_NOT_COUNTED,
  firstLookRead,
  NOT_ABOUT_TIME,
  readyWords,
  shownEarlyWords,
  soFarTitle,
  STORED_AFTER_REVIEW,
  storedOn,
} from '../../words/after-twenty';
import { hiddenWords, leftOutSentence } from '../../words/reported-result';
import { eyeWords } from '../cases/eye-words';
import { instantWords } from '../forms/when-words';
import { recordedOf, shortTimesState, type GoalReading } from '../goals/goal-reading';
import { lastingWaits } from '../goals/goal-standing';
import { waitingForReview } from '../goals/waiting-for-review';
import { runView, type RunView } from './after-chart';
import { resultView, type ResultView } from './after-result';
import { lastedToStore, lastedWords, type LastedView } from './lasted-words';
import { sinceRead } from './since-read';

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
      /** A following twenty is complete and was not read; without an offer where it cannot be read yet. */
      lastingReady: { sentence: string; offer: string | null } | null;
      /** Very short times to look at again, with their cases; `null` where there are no more than chance would give. */
      shortTimes: { sentence: string; cases: readonly { id: string; code: string }[] } | null;
      leftOut: string;
    };

export type AfterSource = {
  state: GoalReading;
  record: SurgeonRecord;
  lasting: readonly Lasting[];
  /** The chart over the windows that may be seen; `null` where none may, or nothing can be drawn. */
  series: ChartSeries | null;
  /** The words under a signal of the monitor. */
  signal: string;
};

/** What may be said of the time of a goal's step today: nothing yet, ready to be read, hidden, so far, or its result. */
export function timeOf(source: AfterSource): TimeView {
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
          firstLookRead(instantWords(firstLook.storedAt)),
          sinceSentencesOf(sinceRead(state, firstLook)),
        )
      : null;

  const waiting = waitingForReview(source.record, goal).length;
  if (goal.state === 'draft') return { kind: 'none', sentence: DRAFT_NOT_COUNTED };
  const shown = latest?.outcome ?? (state.waitsForReview ? outcome : null);
  if (shown) {
    const since = latest ? sinceRead(state, latest) : null;
    return {
      kind: 'result',
      result: resultView(shown, label, latest ? storedOn(instantWords(latest.storedAt)) : STORED_AFTER_REVIEW),
      recorded: latest ? recordedOf(state) : [],
      earlier,
      run: runOf(
        source,
        chartTitle(label, shown, window, latest?.lasted?.map(({ lasting }) => lasting) ?? []),
        state.drawn.length,
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
      sentence: [readyWords(lengthWord), ...(waiting > 0 ? [`${waitsWords(waiting)} ${ANSWER_FIRST}`] : [])].join(' '),
      offer: 'Read the result',
      earlier,
    };
  if (goal.measure === 'safety') return { kind: 'none', sentence: NOT_ABOUT_TIME };
  if (goal.timesShown.length > 0)
    return {
      kind: 'so-far',
      sentence: shownEarlyWords(instantWords(goal.timesShown[0] ?? ''), lengthWord),
      run: runOf(source, soFarTitle(label), 0),
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
function lastingReady(
  { state, lasting }: AfterSource,
  waiting: number,
): { sentence: string; offer: string | null } | null {
  const fresh = lastedToStore(state.stored.at(-1), lasting, '').length;
  if (fresh === 0) {
    const held = lastingWaits(state);
    return held && { sentence: lastingWaitsWords(held), offer: null };
  }
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
    detail: (one) => {
      const seconds = stepSecondsOf(one, state.goal.stepId);
      return [...(seconds === null ? [] : [`${clock(seconds)} as recorded`]), eyeWords(one, state.procedure)]
        .filter(Boolean)
        .join('; ');
    },
  });
}
