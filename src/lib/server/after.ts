import { afterView, type AfterView } from '../rooms/after-twenty/after-view';
import { goalLines, type GoalLine, type ReadGoal } from '../rooms/after-twenty/goal-lines';
import { lastingState, seriesState, statingGoal } from '../rooms/goals/goal-state';
import type { SurgeonRecord, Goal } from '../model';
import { loadCautions } from './content';
import { inTurns, othersMeanwhile } from './in-turns';
import { readGoal } from './results';
import { keptAnswers, recordKey } from './kept-answers';
import type { Store } from './storage/port';

const views = keptAnswers<AfterView>(8);
const lines = keptAnswers<GoalLine[]>(2);

/** One goal as After twenty shows it: only the windows that may be seen are drawn. */
export function readAfter(store: Store, record: SurgeonRecord, goal: Goal, now: string): Promise<AfterView> {
  return views(`${recordKey(record)} ${goal.id}`, () => computeAfter(store, record, goal, now));
}

/** Every goal in one line, with its result, whether that lasted, and what changed since it was read. */
export function readGoalLines(record: SurgeonRecord): Promise<GoalLine[]> {
  return lines(recordKey(record), async () => {
    const read = new Map<string, ReadGoal>();
    for (const goal of record.goals) {
      if (!record.results.some(({ goalId }) => goalId === goal.id)) continue;
      const state = await inTurns(statingGoal(record, goal));
      read.set(goal.id, { state, lasting: lastingState(record, state) });
    }
    return goalLines(record, ({ id }) => read.get(id) ?? null);
  });
}

async function computeAfter(store: Store, record: SurgeonRecord, goal: Goal, now: string): Promise<AfterView> {
  const state = await readGoal(store, record, goal, now);
  const { window } = state;
  const result = state.stored.some(({ look }) => look === state.look) || state.waitsForReview;
  const drawn = result ? window.windows : goal.timesShown.length > 0 ? [...window.windows, window.running] : [];
  const timed = goal.measure !== 'safety' && goal.state !== 'draft' && drawn.some((ids) => ids.length > 0);
  await othersMeanwhile.pause();
  const lasting = lastingState(record, state);
  await othersMeanwhile.pause();
  const series = timed ? seriesState(record, state, drawn) : null;
  await othersMeanwhile.pause();
  return afterView({
    state,
    record,
    lasting,
    series,
    drawn,
    signal: loadCautions()['monitor-signal'].paragraphs.join(' '),
  });
}
