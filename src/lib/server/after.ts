import { afterView, type AfterView } from '../rooms/after-twenty/after-view';
import { goalLines, type GoalLine, type ReadGoal } from '../rooms/after-twenty/goal-lines';
import { lastingOf, readingGoal, seriesOf } from '../rooms/goals/goal-reading';
import type { SurgeonRecord, Goal } from '../model';
import { loadCautions } from './content';
import { inTurns, othersMeanwhile } from './in-turns';
import { keptAnswers, recordKey } from './kept-answers';

const views = keptAnswers<AfterView>(8);
const lines = keptAnswers<GoalLine[]>(2);

/** One goal as After twenty shows it: only the windows that may be seen are drawn. Nothing is stored by looking. */
export function readAfter(record: SurgeonRecord, goal: Goal): Promise<AfterView> {
  return views(`${recordKey(record)} ${goal.id}`, () => computeAfter(record, goal));
}

/** Every goal in one line, with its result, whether that lasted, and what changed since it was read. */
export function readGoalLines(record: SurgeonRecord): Promise<GoalLine[]> {
  return lines(recordKey(record), async () => {
    const read = new Map<string, ReadGoal>();
    for (const goal of record.goals) {
      if (!record.results.some(({ goalId }) => goalId === goal.id)) continue;
      const reading = await inTurns(readingGoal(record, goal));
      read.set(goal.id, { state: reading });
    }
    return goalLines(record, ({ id }) => read.get(id) ?? null);
  });
}

async function computeAfter(record: SurgeonRecord, goal: Goal): Promise<AfterView> {
  const reading = await inTurns(readingGoal(record, goal));
  await othersMeanwhile.pause();
  const lasting = lastingOf(record, reading);
  await othersMeanwhile.pause();
  const series = seriesOf(record, reading);
  await othersMeanwhile.pause();
  return afterView({
    state: reading,
    record,
    lasting,
    series,
    signal: loadCautions()['monitor-signal'].paragraphs.join(' '),
  });
}
