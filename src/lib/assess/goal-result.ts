import { aimedEyesOf, auditOf } from '../audit';
import { aimedLabel } from '../format';
import { type Case, type Lasting, type Measure, type Outcome, type Procedure, emptyProfile } from '../model';
import { lastingFor, resultFor, spanOfCases, startGoal, windowOf } from '../practice';
import { rankedOf } from '../rules';
import { eventsOfGoal } from '../safety';
import { goalEventWords } from '../words';
import { notFullWords, type NoResult } from '../words/assessment';
import { countWords } from '../words/reported-result';
import { safetyWords, type SafetyWords } from '../words/safety';
import { notFull, resultJson } from './json-of-result';
import type { ResultJson } from './result-json';
import { ENGINE } from './engine';
import type { ReadRecord } from './from-reading';
import { suggestionFor } from './suggest';

export type GoalWish = {
  /** Step id, or `suggested`: the step the tool's rule picks from the cases before. */
  step: string;
  /** Code of the first case of the window. */
  from: string;
  window: 20 | 40;
  measure: Extract<Measure, 'time' | 'steadiness'>;
  /** Picked by the tool's rule from this record, so the allowance applies. */
  chosen: boolean;
  /** Aimed at the eyes with this fact only (`small`, `yes`, `hard+very-hard`). */
  eyes?: { fact: string; level: string } | null;
};

/** `running`: how far the window is that is not full; before that there is no result, in words or in numbers. */
export type GoalResult =
  | {
      kind: 'result';
      json: ResultJson;
      outcome: Outcome;
      lasting: readonly Lasting[];
      label: string;
      /** Events of the cases of the window. */
      safety: SafetyWords;
    }
  | { kind: 'running'; json: ResultJson; label: string; far: string }
  | { kind: 'none'; why: NoResult };

/**
 * What came of a goal from one case on; `none` with its reason where the file has no such case, no order, or too little.
 * The cases before `from` are the record the goal started from; where lists are unknown the window is counted by cases.
 */
export function goalResult(
  wish: GoalWish,
  record: ReadRecord,
  procedure: Procedure,
  seed: number,
  resamples?: number,
): GoalResult {
  const from = record.cases.find((one) => one.code === wish.from);
  if (!from) return noResult({ code: 'no-such-case', case: wish.from });
  if (!from.orderKnown) return noResult({ code: 'order-unknown' });
  const before = record.cases.filter((one) => one.sequence < from.sequence);
  const picked =
    wish.step === 'suggested'
      ? pickFrom(before, record, procedure, seed, resamples)
      : { stepId: wish.step, view: null };
  if (!picked) return noResult({ code: 'no-step' });
  const eyes = wish.eyes ? aimedEyesOf(procedure, wish.eyes.fact, wish.eyes.level) : null;
  if (wish.eyes && !eyes) return noResult({ code: 'no-such-eyes', ...wish.eyes });
  const started = startGoal({
    cases: before,
    lists: record.lists,
    procedure,
    references: record.references,
    stepId: picked.stepId,
    measure: wish.measure,
    eyes,
    chosenBy: wish.chosen || wish.step === 'suggested' ? (picked.view ?? 'seconds') : 'own',
    seed,
    engine: ENGINE,
    windowLength: wish.window,
  });
  if (started.kind !== 'start') return noResult({ code: 'cannot-start', why: started.why });
  const window = windowOf(
    {
      procedureId: procedure.id,
      stepId: picked.stepId,
      ...(eyes ? { eyes } : {}),
      baseline: started.baseline,
      windowLength: wish.window,
      afterSequence: before.at(-1)?.sequence ?? 0,
      listAtStart: null,
      decisions: [],
    },
    record.cases,
    record.lists,
    procedure,
  );
  const [windowIds] = window.windows;
  const common = {
    cases: record.cases,
    lists: record.lists,
    procedure,
    baseline: started.baseline,
    stepId: picked.stepId,
    eyes,
  };
  const label = aimedLabel(procedure.steps.find(({ id }) => id === picked.stepId)?.label ?? picked.stepId, eyes);
  if (!windowIds) {
    const far = countWords(window, window.running.length);
    return { kind: 'running', json: notFull(picked.stepId, eyes, notFullWords(far)), label, far };
  }
  const outcome = resultFor({
    ...common,
    windowIds,
    measure: wish.measure,
    look: 'first',
    seed,
  });
  const median = started.baseline.frozen?.median ?? null;
  // Only a *shorter* can last or fade.
  const lasting = outcome.kind === 'shorter' ? lastingFor({ ...common, windows: window.windows }) : [];
  const json = resultJson({ stepId: picked.stepId, eyes, outcome, lasting, median });
  const span = spanOfCases(record.cases, windowIds, procedure.id);
  const safety = safetyWords(span, record.cases, record.lists);
  const events = eventsOfGoal({ ...common, baselineIds: started.baseline.caseIds, windowIds });
  safety.sentences.push(...goalEventWords(events, procedure));
  return { kind: 'result', json, outcome, lasting, label, safety };
}

const noResult = (why: NoResult): GoalResult => ({ kind: 'none', why });

/** The step the rule suggests from these cases; the largest difference where nothing stands out. */
function pickFrom(cases: readonly Case[], record: ReadRecord, procedure: Procedure, seed: number, resamples?: number) {
  const audit = auditOf({ cases, lists: record.lists, procedure, references: record.references, seed, resamples });
  const suggestion = suggestionFor(audit, { cases, lists: record.lists, profile: emptyProfile });
  const [first] = suggestion.steps;
  const view = suggestion.view === 'safety' ? null : suggestion.view;
  if (first && (suggestion.kind === 'time' || suggestion.kind === 'steadiness' || suggestion.kind === 'level'))
    return { stepId: first, view };
  const largest = [...audit.steps]
    .filter((step) => !step.notToShorten && step.difference !== null)
    .sort((a, b) => rankedOf(b) - rankedOf(a))[0];
  return largest ? { stepId: largest.stepId, view: 'seconds' as const } : null;
}
