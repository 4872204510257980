import { doneBeside, type ChartSeries } from '../../practice';
import type { Goal, Reflection } from '../../model';
import { lessOrMore, rangeOfRatios } from '../../format';
import { doneBesideWords } from '../../words/after-twenty';
import { latestAnswers } from './done-cells';

/**
 * One sentence per checkpoint that was done in at least 8 and not done in at least 8 cases of full windows, answered
 * before the times were seen: association, not proof. Empty where no checkpoint has that many on both sides.
 */
export function doneBesideOf(goal: Goal, reflections: readonly Reflection[], series: ChartSeries | null): string[] {
  if (!series) return [];
  const answers = latestAnswers(goal.id, reflections);
  const points = series.points.filter((point) => point.period > 0);
  return goal.checkpoints.flatMap(({ id, look }) => {
    const found = doneBeside(
      points.flatMap(({ caseId, percent }) => {
        const given = answers.get(`${caseId} ${id}`);
        return given && !given.afterLengths && given.answer !== 'did-not-arise'
          ? [{ done: given.answer === 'done', percent }]
          : [];
      }),
    );
    return found ? [doneBesideWords(look, found, lessOrMore(found.ratio), rangeOfRatios(found.low, found.high))] : [];
  });
}
