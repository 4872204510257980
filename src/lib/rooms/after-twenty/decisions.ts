import type { Case, Decision, Goal, Procedure } from '../../model';
import { DECISIONS } from '../../words/decisions';
import { eventQuestion, eventsAtStep } from '../goals/event-question';
import type { GoalReading } from '../goals/goal-reading';
import { instantWords } from '../forms/when-words';

export type DecisionsView = {
  made: readonly string[];
  offered: readonly { value: Decision['kind']; label: string; hint: string }[];
};

/** What was decided, with dates and reasons, and what can be decided now. */
export function decisionsOf(reading: GoalReading): DecisionsView {
  const { goal, stored, look, waitsForReview: waits } = reading;
  const has = stored.some((each) => each.look === look);
  const kinds: Decision['kind'][] =
    goal.state === 'closed' || goal.state === 'draft'
      ? []
      : goal.state === 'paused'
        ? ['resume', 'move-on']
        : has
          ? [
              'keep',
              ...(look === 'first' && goal.windowLength === 20 && stored[0]?.outcome.kind !== 'paused'
                ? (['second-look'] as const)
                : []),
              'change-checkpoints',
              'move-on',
              'pause',
            ]
          : ['pause', ...(waits ? [] : (['move-on'] as const))];
  const asks = eventQuestion(reading) !== null;
  const afterEvent: Decision['kind'][] = asks
    ? ['go-on', ...(stored.length > 0 ? [] : (['to-checkpoints'] as const))]
    : [];
  return {
    made: goal.decisions.map(
      ({ at, kind, reason }) =>
        `${instantWords(at)}, ${lowerFirst(DECISIONS[kind].label)}${reason ? `: ${reason}` : ''}`,
    ),
    offered: [...afterEvent, ...kinds].map((value) => ({ value, ...DECISIONS[value] })),
  };
}

const lowerFirst = (label: string) => label.charAt(0).toLowerCase() + label.slice(1);

const STATE_AFTER: Record<Decision['kind'], Goal['state']> = {
  keep: 'running',
  'second-look': 'running',
  'change-checkpoints': 'closed',
  'move-on': 'closed',
  pause: 'paused',
  resume: 'running',
  'go-on': 'running',
  'to-checkpoints': 'running',
};

/** The goal after a decision. `cases`: of the record, for the events at its step that were known when it was made. */
export function decided(
  goal: Goal,
  kind: Decision['kind'],
  reason: string,
  now: string,
  known: { procedure: Procedure; cases: readonly Case[] } | null = null,
): Goal {
  const events = known ? eventsAtStep({ goal, ...known }).length : 0;
  return {
    ...goal,
    state: STATE_AFTER[kind],
    measure: kind === 'to-checkpoints' ? 'checkpoints' : goal.measure,
    decisions: [...goal.decisions, { at: now, kind, reason, ...(events > 0 ? { eventsAtStep: events } : {}) }],
  };
}
