import { describe, expect, it } from 'vitest';
import type { Event, SurgeonRecord } from '../../../src/lib/model';
import { afterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { decided } from '../../../src/lib/rooms/after-twenty/decisions';
import { goalReading } from '../../../src/lib/rooms/goals/goal-reading';
import { nowView } from '../../../src/lib/rooms/now/now-view';
import { changed, recordOf } from '../../made-up/read-month';
import { aTear } from '../../made-up/plain';

const NOW = '2026-09-05T08:00:00.000Z';
const tear: Event = aTear('practised', { reviewed: { at: NOW, text: 'A wider opening.' } });
const withTear = (record: SurgeonRecord, ...places: number[]) =>
  places.reduce((all, place) => changed(all, place, () => ({ events: [tear] })), record);
const after = (record: SurgeonRecord) =>
  afterView({ state: goalReading(record, record.goals[0]!), record, lasting: [], series: null, signal: '' });
const offered = (record: SurgeonRecord) => after(record).decisions.offered.map(({ value }) => value);
const decide = (record: SurgeonRecord, kind: Parameters<typeof decided>[1]): SurgeonRecord => ({
  ...record,
  goals: [
    decided(record.goals[0]!, kind, 'Looked at it.', NOW, { procedure: record.procedures[0]!, cases: record.cases }),
  ],
});

describe('a running goal with a time whose step has a new event', () => {
  const record = withTear(recordOf(53), 45);

  it('asks at once, on Now and on After twenty: go on, go over to checkpoints, or pause', () => {
    expect(nowView(record, null)).toMatchObject({
      head: 'The goal on practised: an event asks for a decision.',
      action: { label: 'Decide' },
    });
    expect(after(record).notices.join(' ')).toContain(
      'Written down at this step since the goal was set: Posterior capsule tear at practised, serious, reviewed. Decide whether to go on with times, to switch to checkpoints, or to pause.',
    );
    expect(offered(record)).toEqual(['go-on', 'to-checkpoints', 'pause', 'move-on']);
  });

  it('asks no more once that is decided, and again at the next event', () => {
    const on = decide(record, 'go-on');
    expect(offered(on)).toEqual(['pause', 'move-on']);
    expect(nowView(on, null).state).toBe('window');
    expect(on.goals[0]).toMatchObject({ measure: 'time', state: 'running' });
    expect(offered(withTear(on, 50))).toContain('to-checkpoints');
  });

  it('goes on without a time once it went over to checkpoints', () => {
    const over = decide(record, 'to-checkpoints');
    expect(over.goals[0]).toMatchObject({ measure: 'checkpoints', state: 'running' });
    expect(offered(withTear(over, 50))).toEqual(['pause', 'move-on']);
  });

  it('asks nothing of an event at another step, before the goal, or of a goal without a time', () => {
    expect(offered(changed(recordOf(53), 45, () => ({ events: [{ ...tear, stepId: 'sixth' }] })))).not.toContain(
      'go-on',
    );
    expect(offered(withTear(recordOf(53), 12))).not.toContain('go-on');
    expect(offered(withTear(recordOf(53, {}, { measure: 'checkpoints' }), 45))).not.toContain('go-on');
  });
});
