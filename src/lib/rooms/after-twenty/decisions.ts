import type { Case, Decision, Goal, Procedure } from '../../model';
import { eventQuestion, eventsAtStep } from '../goals/event-question';
import type { GoalReading } from '../goals/goal-reading';
import { instantWords } from '../forms/when-words';

export type DecisionsView = {
  made: readonly string[];
  offered: readonly { value: Decision['kind']; label: string; hint: string }[];
};

const DECISION: Record<Decision['kind'], { label: string; hint: string }> = {
  keep: { label: 'Keep it', hint: 'The goal goes on; the following twenties show whether it lasts.' },
  'second-look': {
    label: 'A second look, at forty',
    hint: 'Twenty more cases are added once, and judged more strictly because there was a first look.',
  },
  'change-checkpoints': {
    label: 'Change the checkpoints',
    hint: 'This goal closes; a new plan on the same step opens.',
  },
  'move-on': { label: 'Move on', hint: 'This goal closes. What it showed stays here.' },
  pause: { label: 'Pause', hint: 'For safety, or because something else comes first. Nothing is lost.' },
  resume: { label: 'Go on', hint: 'The goal runs again.' },
  'go-on': { label: 'Go on with times', hint: 'The event is written down, and the goal stays as it is.' },
  'to-checkpoints': {
    label: 'Switch to checkpoints',
    hint: 'The goal goes on without a time: what you did is its result. This cannot be turned back.',
  },
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
        `${instantWords(at)}, ${lowerFirst(DECISION[kind].label)}${reason ? `: ${reason}` : ''}`,
    ),
    offered: [...afterEvent, ...kinds].map((value) => ({ value, ...DECISION[value] })),
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
