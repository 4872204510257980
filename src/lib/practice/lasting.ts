import type { Effect, Lasting } from '../model';
import { tQuantile } from '../statistics';
import { changeOf, clearlyBelow, countByPeriod, type ChangeInput } from './change';
import { effectOf } from './effect';
import { standardError, type PeriodFit } from './period-fit';
import { practiceThresholds as set } from './thresholds';

/**
 * Did it last, for every window after the first? The same joint model with one indicator a window; each is judged on
 * the windows up to itself, so that a later one never moves what was said. `opt` is added to every window.
 * Lasted: below the start (one-sided 95 %) and at least half the first effect. Faded: not below the start, less than
 * half, and above the first window. Partly: below the start, but less than half. Else not clear yet.
 * Empty where there is no window after the first, or nothing can be said against the rest.
 */
export function lastingOf(input: ChangeInput, selectionAllowance: number): Lasting[] {
  const found: Lasting[] = [];
  for (let nth = 1; nth < input.windows; nth += 1) {
    const { against, difference } = changeOf(upTo(input, nth + 1));
    if (against.kind === 'cannot') return found;
    const effect = windowEffect(against, nth, selectionAllowance, difference, input);
    const first = against.estimates[0]! + selectionAllowance;
    found.push({
      nth,
      kind: lastingKind(against, nth, first, selectionAllowance),
      effect,
      firstEstimate: first,
      together: nth >= 2 ? lastTwo(upTo(input, nth + 1), selectionAllowance) : null,
    });
  }
  return found;
}

/** What one following window says, from its estimate, the first one and their covariance; log scale. */
export function lastingKind(fit: PeriodFit, index: number, first: number, selectionAllowance: number): Lasting['kind'] {
  const estimate = fit.estimates[index]! + selectionAllowance;
  const below = clearlyBelow(fit, index, set.lastingConfidence, selectionAllowance);
  const half = estimate <= set.lastingHalf * first;
  if (below) return half ? 'lasted' : 'partly';
  const small = first > -set.smallFirstEffect;
  const reach =
    tQuantile(small ? set.fadedConfidenceSmall : set.lastingConfidence, fit.df) * standardError(fit, 0, index);
  return !half && estimate - first - reach > 0 ? 'faded' : 'not-clear';
}

/** The last two windows as one. */
function lastTwo(input: ChangeInput, selectionAllowance: number): Effect | null {
  const windows = input.windows - 1;
  const joined = { ...input, windows, window: input.window.map((period) => Math.min(period, windows)) };
  const { against, difference } = changeOf(joined);
  return against.kind === 'cannot' ? null : windowEffect(against, windows - 1, selectionAllowance, difference, joined);
}

function windowEffect(
  fit: PeriodFit,
  index: number,
  selectionAllowance: number,
  difference: Float64Array,
  input: ChangeInput,
): Effect {
  const counts = countByPeriod(difference, input.window, input.windows);
  return effectOf(fit, index, {
    selectionAllowance,
    look: 'first',
    counts: { start: counts[0]!, window: counts[index + 1]! },
    about: 'This step against the rest of the same operations',
  });
}

/** Only the cases of the start and the first `windows` windows. */
function upTo(input: ChangeInput, windows: number): ChangeInput {
  const kept = [...input.window.keys()].filter((at) => input.window[at]! <= windows);
  const values = (row: Float64Array) => Float64Array.from(kept, (at) => row[at]!);
  return {
    ...input,
    windows,
    y: input.y.map(values),
    columns: input.columns.map(values),
    window: Int32Array.from(kept, (at) => input.window[at]!),
    list: Int32Array.from(kept, (at) => input.list[at]!),
  };
}
