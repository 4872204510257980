import type { AimedEyes, AimedOutcome, Effect, Lasting, Outcome } from '../model';
import { cannotSayWords, pauseWords } from '../words';
import type { EffectJson, ResultJson } from './result-json';

/** A result as it is written. `median`: of the baseline cases, seconds; `null` where there is none. */
export function resultJson({
  stepId,
  eyes,
  outcome,
  lasting,
  median,
}: {
  stepId: string;
  eyes: AimedEyes | null;
  outcome: Outcome;
  lasting: readonly Lasting[];
  median: number | null;
}): ResultJson {
  return {
    step: stepId,
    eyes: aimedJson(eyes, outcome.aimed),
    kind: outcome.kind,
    effect: effectJson(outcome.measure === 'steadiness' ? outcome.spread : (outcome.against ?? outcome.plain)),
    plain: effectJson(outcome.plain),
    rest: effectJson(outcome.rest),
    spread: effectJson(outcome.spread),
    allowance: outcome.selectionAllowance,
    steer_s: median === null || outcome.steer === null ? null : median * Math.exp(outcome.steer),
    notes: [...outcome.notes],
    paused: outcome.paused.map(pauseWords),
    cannot: outcome.cannot && cannotSayWords(outcome.cannot),
    lasting: lasting.map(({ nth, kind, effect }) => ({ nth, kind, effect: effectJson(effect) as EffectJson })),
  };
}

/** No figure before the window is full: a look at it would already be a result. */
export const notFull = (step: string, eyes: AimedEyes | null, because: string): ResultJson => ({
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

function effectJson(effect: Effect | null): EffectJson | null {
  if (!effect) return null;
  const [ratio, low, high] = [effect.estimate, effect.low, effect.high].map(Math.exp) as [number, number, number];
  return { ratio, low, high, n_start: effect.nBaseline, n_window: effect.nWindow, method: effect.method };
}
