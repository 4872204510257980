import { normalQuantile } from '../statistics';
import type { ChangeInput } from './change';
import type { Look } from './effect';
import { judgeTime, type TimeJudgement } from './judge-time';
import { practiceThresholds as set } from './thresholds';

/** How many of the cases of a time had the eyes a goal is aimed at, of those in which the fact was entered. */
export type SuchEyes = { such: number; of: number };

/**
 * By how many cases such eyes are more frequent in the window than their share at the start foretells; 0 unless that is
 * clear (two proportions, normal approximation with the pooled share, one-sided 95 %: Fleiss, Statistical Methods for
 * Rates and Proportions, 3rd ed. 2003, section 3.2). A fact called more freely brings easier eyes among these.
 */
export function excessOf(baseline: SuchEyes, window: SuchEyes): number {
  if (baseline.of === 0 || window.of === 0) return 0;
  const [before, after] = [baseline.such / baseline.of, window.such / window.of];
  const pooled = (baseline.such + window.such) / (baseline.of + window.of);
  const se = Math.sqrt(pooled * (1 - pooled) * (1 / baseline.of + 1 / window.of));
  const clear = se > 0 && (after - before) / se > normalQuantile(set.moreSuchEyesConfidence);
  return clear ? Math.ceil(window.such - before * window.of) : 0;
}

export type AimedJudgement = { time: TimeJudgement; input: ChangeInput; withoutExcess: boolean };

/**
 * The result of a goal aimed at certain eyes, from the arrays of those eyes alone. Where they are clearly more frequent
 * in the window, *shorter* must also hold without the shortest excess cases; where it does not, the answer is what the
 * others say. (Bound of the worst case; compare Lee's bounds for a share that changed: Rev. Econ. Stud. 2009;76:1071.)
 * @param excess of `excessOf`
 */
export function judgeAimed(
  input: ChangeInput,
  judged: { selectionAllowance: number; steer: number | null; look: Look },
  excess: number,
): AimedJudgement {
  const time = judgeTime(input, judged);
  if (time.kind !== 'shorter' || excess <= 0 || time.change.against.kind === 'cannot')
    return { time, input, withoutExcess: false };
  const fewer = withoutShortest(input, time.change.against.adjusted, excess);
  const bounded = judgeTime(fewer, judged);
  return bounded.kind === 'shorter'
    ? { time, input, withoutExcess: false }
    : { time: bounded, input: fewer, withoutExcess: true };
}

/** Without so many cases of the window in which the step was shortest against the rest. */
function withoutShortest(input: ChangeInput, difference: Float64Array, howMany: number): ChangeInput {
  const window = [...input.window.keys()].filter((at) => input.window[at] === 1 && Number.isFinite(difference[at]));
  const shortest = new Set(window.sort((a, b) => difference[a]! - difference[b]!).slice(0, howMany));
  const left = (_: number, at: number) => !shortest.has(at);
  return {
    ...input,
    y: input.y.map((row) => row.filter(left)),
    columns: input.columns.map((row) => row.filter(left)),
    window: input.window.filter(left),
    list: input.list.filter(left),
  };
}
