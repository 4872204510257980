import type { CannotJudge, Effect, ResultKind } from '../model';
import { changeOf, clearlyAbove, clearlyBelow, countByPeriod, type Change, type ChangeInput } from './change';
import { effectOf, type Look } from './effect';
import type { PeriodFit } from './period-fit';
import type { Cannot } from './cannot';
import { practiceThresholds as set } from './thresholds';
import { verdictOf } from './verdict';

export type TimeJudgement = {
  kind: ResultKind;
  against: Effect | null;
  plain: Effect | null;
  rest: Effect | null;
  cannot: CannotJudge | null;
  change: Change;
};

/**
 * The result of one window, from arrays: what the screens show and what the bench measures.
 * @param judged.selectionAllowance for having picked the step, log scale, ≥ 0
 * @param judged.steer log of the lower end of the expected range over the median; `null` where not known
 */
export function judgeTime(
  input: ChangeInput,
  judged: { selectionAllowance: number; steer: number | null; look: Look },
): TimeJudgement {
  const change = changeOf(input);
  const own = input.y[input.stepIndex] ?? new Float64Array(0);
  const effect = (
    fit: PeriodFit | Cannot<CannotJudge>,
    values: Float64Array,
    selectionAllowance: number,
    about: string,
  ): Effect | null => {
    if (fit.kind === 'cannot') return null;
    const counts = countByPeriod(values, input.window, input.windows);
    return effectOf(fit, 0, {
      selectionAllowance,
      look: judged.look,
      counts: { start: counts[0]!, window: counts[1]! },
      about,
    });
  };
  const against = effect(
    change.against,
    change.difference,
    judged.selectionAllowance,
    'This step against the rest of the same operations',
  );
  const plain = effect(change.plain, own, judged.selectionAllowance, 'This step alone');
  const rest = effect(change.rest, change.difference, 0, 'The rest of the same operations');
  const difficultyOff =
    change.difficultyOff?.kind === 'fit'
      ? effect(
          change.difficultyOff,
          change.difference,
          judged.selectionAllowance,
          'With shared case difficulty removed',
        )
      : null;
  const restShorter = change.rest.kind === 'fit' && clearlyBelow(change.rest, 0, set.restShorterConfidence);
  const restLonger = change.rest.kind === 'fit' && clearlyAbove(change.rest, 0, set.restLongerConfidence);
  const ownShorter =
    change.plain.kind === 'fit' && clearlyBelow(change.plain, 0, set.ownShorterConfidence, judged.selectionAllowance);
  const failed = [change.plain, change.against].find((fit) => fit.kind === 'cannot');
  return {
    kind: verdictOf({
      against,
      plain,
      rest,
      restShorter,
      restLonger,
      ownShorter,
      difficultyOffHigh: difficultyOff?.high ?? null,
      steer: judged.steer,
    }),
    against,
    plain,
    rest,
    cannot: failed?.kind === 'cannot' ? failed.why : null,
    change,
  };
}
