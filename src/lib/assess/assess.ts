import { aimedEyesOf, auditOf, auditThresholds, knownLists, type Audit, type Interval, type StepAudit } from '../audit';
import type { AuditReading } from '../intake';
import {
  type AimedEyes,
  type AimedOutcome,
  type Case,
  type Effect,
  type Lasting,
  type Measure,
  type Outcome,
  type Problem,
  type Procedure,
  emptyProfile,
} from '../model';
import { lastingFor, notANumber, recordNotANumber, resultFor, spanOfCases, startGoal, windowOf } from '../practice';
import { rankedOf } from '../rules';
import type { Guidance, Suggestion } from '../rules/types';
import { eventBounds, eventsOfGoal, stepEventTally } from '../safety';
import type { Assessment, EffectJson, EyesJson, ResultJson } from './assessment';
import { goalEventWords, suggestionReasons } from '../words';
import { countWords } from '../words/reported-result';
import { comparisonOf, type CompareWish, type Comparison } from './compare';
import { ENGINE } from './engine';
import { recordFromReading, type ReadRecord } from './from-reading';
import { guidanceFor } from './guidance-for';
import { aimedLabel, counted } from '../format';
import { safetyWords, type SafetyWords } from '../words/safety';
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

export type AssessInput = {
  reading: Pick<AuditReading, 'cases' | 'lists' | 'references' | 'procedureId' | 'problems'> &
    Partial<Pick<AuditReading, 'questions'>>;
  procedures: readonly Procedure[];
  guidance: readonly Guidance[];
  seed?: number;
  resamples?: number;
  goal?: GoalWish;
  compare?: CompareWish;
};

/** The answer with the audit behind it, or why nothing can be assessed. */
export type Assessed =
  | {
      kind: 'assessed';
      assessment: Assessment;
      audit: Audit;
      suggestion: Suggestion;
      goal: GoalResult | null;
      compare: Comparison | null;
      /** Events of all these cases, with denominators. */
      safety: SafetyWords;
      /** What should be known before reading anything into the numbers. */
      said: readonly string[];
    }
  | { kind: 'cannot'; because: string; problems: Problem[] };

/**
 * The main job without a screen: from what a file holds to where to look, how sure, and, with a goal, what came of it.
 * Deterministic for one reading and seed. Times in seconds, ratios of window to start. Never throws on what a file
 * holds: too little is an answer (`suggestion.kind`), nothing at all is `cannot`.
 */
export function assess(input: AssessInput): Assessed {
  const { reading, seed = 1 } = input;
  const procedure = input.procedures.find((each) => each.id === reading.procedureId);
  const record = procedure && recordFromReading(reading, procedure);
  if (!procedure || !record || record.cases.length === 0)
    return { kind: 'cannot', because: 'No case in this file can be assessed.', problems: reading.problems };
  const wrong =
    recordNotANumber(record) ??
    notANumber({ seed, 'number of resamples': input.resamples, 'length of the window': input.goal?.window });
  if (wrong) return { kind: 'cannot', because: wrong.because, problems: reading.problems };
  const audit = auditOf({ ...record, procedure, seed, resamples: input.resamples });
  const suggestion = suggestionFor(audit, { ...record, profile: emptyProfile });
  const goal = input.goal ? goalResult(input.goal, record, procedure, seed, input.resamples) : null;
  // A result rests on which case came first: where that was guessed, the answer itself says so.
  if (goal?.kind === 'result' && orderGuessed(reading.questions)) goal.json.notes.push('order-guessed');
  const compare = input.compare ? comparisonOf(input.compare, record, procedure) : null;
  const assessment: Assessment = {
    format: 'next-twenty/assessment/2',
    procedure: procedure.id,
    cases: record.cases.length,
    lists: knownLists(record.cases) || null,
    seed,
    left_out: reading.problems.map(({ row, column, value, why }) => ({ row, column, value, why })),
    steps: audit.steps.map((step) => stepJson(step, record, audit.waiting.n > 0)),
    patterns: audit.patterns
      .filter(({ shown }) => shown)
      .map((one) => ({
        step: one.stepId,
        label: one.label,
        n_with: one.nWith,
        n_without: one.nWithout,
        ratio: one.ratio,
        low: one.low,
        high: one.high,
      })),
    suggestion: {
      kind: suggestion.kind,
      steps: [...suggestion.steps],
      view: suggestion.view,
      because: suggestionReasons(audit, suggestion),
      eyes: suggestion.eyes ? eyesJson(suggestion.eyes) : null,
    },
    guidance: guidanceFor(audit, suggestion, record, input.guidance),
    ...(goal ? { result: goal.kind === 'none' ? null : goal.json } : {}),
    ...(compare ? { compare: compare.json } : {}),
  };
  return {
    kind: 'assessed',
    assessment,
    audit,
    suggestion,
    goal,
    compare,
    safety: safetyWords(record.cases, record.cases, record.lists, 'the operation is'),
    said: [...audit.said, ...smallReference(audit, record)],
  };
}

const orderGuessed = (questions: AuditReading['questions'] = []) =>
  questions.some(({ id, answered }) => id === 'order' && !answered);

/** That a reference set was given and is too small to compare any step with. */
function smallReference({ steps }: Audit, { references }: ReadRecord): string[] {
  const cases = references.reduce((sum, set) => sum + set.cases.length, 0);
  if (cases === 0 || steps.some(({ reference }) => reference !== null)) return [];
  const { referenceCases, referenceLists } = auditThresholds;
  return [
    `The reference set holds ${counted(cases, 'case')}: a step is compared from ${referenceCases} cases on, of at least ${referenceLists} lists or surgeons.`,
  ];
}

const pair = (interval: Interval | null): [number, number] | null => interval && [interval.low, interval.high];

function stepJson(step: StepAudit, record: ReadRecord, waitingNoted: boolean): Assessment['steps'][number] {
  const done = record.cases.filter((one) => one.stretches.some((stretch) => stretch.stepId === step.stepId));
  const tied = stepEventTally(done, step.stepId);
  const bounds = eventBounds(tied);
  return {
    step: step.stepId,
    label: step.label,
    n: step.n,
    median_s: step.median,
    p20_s: step.p20,
    adjusted: step.adjusted && { median_s: step.adjusted.median, p20_s: step.adjusted.p20 },
    difference_s: step.difference,
    difference_same_eyes_s: step.differenceSameEyes,
    difference_with_eye_s: step.differenceWithEye,
    difference_interval_s: pair(step.differenceInterval),
    difference_cannot: step.differenceCannot,
    spread: step.spread,
    spread_interval: pair(step.spreadInterval),
    share: step.share,
    went_back_per_case: step.returnedTo?.perCase ?? null,
    waiting_s: waitingNoted ? step.waitingPerCase : null,
    over_time: step.overTime && { ratio_per_20: step.overTime.ratio, low: step.overTime.low, high: step.overTime.high },
    reference: step.reference && {
      n: step.reference.n,
      readers: step.reference.readers,
      ratio: step.reference.ratio,
      low: step.reference.low,
      high: step.reference.high,
    },
    events: {
      n: tied.answered === 0 ? null : tied.withEvent,
      may_belong: tied.mayBelong,
      answered: tied.answered,
      upper95: bounds.kind === 'none' ? bounds.upper95 : bounds.kind === 'some' ? bounds.high : null,
    },
    first: step.first,
  };
}

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
  | { kind: 'none'; because: string };

/**
 * What came of a goal from one case on; `none` with its reason where the file has no such case, no order, or too little.
 * The cases before `from` are the record the goal started from; where lists are unknown the window is counted by cases.
 */
function goalResult(
  wish: GoalWish,
  record: ReadRecord,
  procedure: Procedure,
  seed: number,
  resamples?: number,
): GoalResult {
  const from = record.cases.find((one) => one.code === wish.from);
  if (!from) return noResult(`No case of this file has the code "${wish.from}".`);
  if (!from.orderKnown) return noResult('The order of the cases in time is not known.');
  const before = record.cases.filter((one) => one.sequence < from.sequence);
  const picked =
    wish.step === 'suggested'
      ? pickFrom(before, record, procedure, seed, resamples)
      : { stepId: wish.step, view: null };
  if (!picked) return noResult('The cases before it suggest no step.');
  const eyes = wish.eyes ? aimedEyesOf(procedure, wish.eyes.fact, wish.eyes.level) : null;
  if (wish.eyes && !eyes)
    return noResult(`This procedure has no eyes "${wish.eyes.fact}=${wish.eyes.level}" a goal could be aimed at.`);
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
  if (started.kind !== 'start') return noResult(started.because);
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
    return { kind: 'running', json: notFull(picked.stepId, eyes, `The window is not full: ${far}`), label, far };
  }
  const outcome = resultFor({
    ...common,
    windowIds,
    measure: wish.measure,
    look: 'first',
    seed,
  });
  const usual = started.baseline.frozen?.median ?? null;
  // Only a *shorter* can last or fade.
  const lasting = outcome.kind === 'shorter' ? lastingFor({ ...common, windows: window.windows }) : [];
  const json: ResultJson = {
    step: picked.stepId,
    eyes: aimedJson(eyes, outcome.aimed),
    kind: outcome.kind,
    effect: effectJson(wish.measure === 'steadiness' ? outcome.spread : (outcome.against ?? outcome.plain)),
    plain: effectJson(outcome.plain),
    rest: effectJson(outcome.rest),
    spread: effectJson(outcome.spread),
    allowance: outcome.selectionAllowance,
    steer_s: usual === null || outcome.steer === null ? null : usual * Math.exp(outcome.steer),
    notes: [...outcome.notes],
    paused: outcome.paused,
    cannot: outcome.cannot?.because ?? null,
    lasting: lasting.map(({ nth, kind, effect }) => ({ nth, kind, effect: effectJson(effect) as EffectJson })),
  };
  const span = spanOfCases(record.cases, windowIds, procedure.id);
  const safety = safetyWords(span, record.cases, record.lists);
  const events = eventsOfGoal({ ...common, baselineIds: started.baseline.caseIds, windowIds });
  safety.sentences.push(...goalEventWords(events, procedure));
  return { kind: 'result', json, outcome, lasting, label, safety };
}

/** No figure before the window is full: a look at it would already be a result. */
const notFull = (step: string, eyes: AimedEyes | null, because: string): ResultJson => ({
  step,
  eyes: aimedJson(eyes),
  kind: 'cannot-tell',
  effect: null,
  plain: null,
  rest: null,
  spread: null,
  allowance: 0,
  steer_s: null,
  notes: ['window-not-full'],
  paused: [],
  cannot: because,
  lasting: [],
});

/** Shares, other eyes: `null` before there is a result. */
function aimedJson(eyes: AimedEyes | null, aimed?: AimedOutcome): ResultJson['eyes'] {
  if (!eyes) return null;
  return {
    ...eyes,
    start: aimed?.baseline ?? null,
    window: aimed?.window ?? null,
    excess: aimed?.excess ?? null,
    without_excess: aimed?.withoutExcess ?? null,
    changed_late: aimed?.changedLate ?? null,
    other_eyes: effectJson(aimed?.otherEyes ?? null),
  };
}

function eyesJson({ stepId, label, withIt, without, because }: NonNullable<Suggestion['eyes']>): EyesJson {
  const group = ({ n, lists, median, p20 }: typeof withIt) => ({ n, lists, median_s: median, p20_s: p20 });
  return { step: stepId, label, with: group(withIt), without: group(without), because: [...because] };
}

const noResult = (because: string): GoalResult => ({ kind: 'none', because });

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

function effectJson(effect: Effect | null): EffectJson | null {
  if (!effect) return null;
  const [ratio, low, high] = [effect.estimate, effect.low, effect.high].map(Math.exp) as [number, number, number];
  return { ratio, low, high, n_start: effect.nBaseline, n_window: effect.nWindow, method: effect.method };
}
