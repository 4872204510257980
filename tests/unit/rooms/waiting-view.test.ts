import { describe, expect, it } from 'vitest';
import { waitingNote } from '../../../src/lib/rooms/choose/waiting-view';
import type { Case } from '../../../src/lib/model';
import { aCase, smallProcedure } from '../../made-up/record';

const procedure = {
  ...smallProcedure,
  waitingReasons: [
    { id: 'lens-loading', label: 'lens loading' },
    { id: 'hand-over', label: 'instrument hand-over' },
    { id: 'machine', label: 'machine' },
    { id: 'other-work', label: 'other work meanwhile' },
  ],
};
const waiting = (reason: string | null, seconds: number): Case['stretches'][number] => ({
  stepId: 'cortex',
  start: null,
  end: null,
  seconds,
  kind: 'waiting',
  reason,
});
const cases = (count: number, more: (n: number) => Case['stretches'], over: Partial<Case> = {}) =>
  Array.from({ length: count }, (_, index) =>
    aCase(index + 1, { ...over, stretches: [...aCase(1).stretches, ...more(index + 1)] }),
  );

describe('the note on waiting for the team', () => {
  it('shows reasons in ten cases or more, most time first, and only counts the others', () => {
    const note = waitingNote(
      cases(14, (n) => [
        waiting('lens-loading', 20 + n),
        ...(n <= 10 ? [waiting('hand-over', 60)] : []),
        ...(n <= 9 ? [waiting('machine', 500)] : []),
      ]),
      procedure,
    );
    expect(note?.rows).toEqual([
      { reason: 'instrument hand-over', cases: '10 of 14', each: '1\u00A0min' },
      // Median of 21 … 34 s.
      { reason: 'lens loading', cases: '14 of 14', each: '28\u00A0s' },
    ]);
    expect(note?.notShown).toBe('1 reason noted in fewer than 10 cases is not shown.');
    expect(JSON.stringify(note)).not.toContain('machine');
  });

  it('adds the waits of one case for one reason together', () => {
    const note = waitingNote(
      cases(10, () => [waiting('machine', 5), waiting('machine', 7)]),
      procedure,
    );
    expect(note?.rows).toEqual([{ reason: 'machine', cases: '10 of 10', each: '12\u00A0s' }]);
  });

  it('says nothing of codes, places, lists, days or hands', () => {
    const note = waitingNote(
      cases(12, () => [waiting(null, 9)], {
        listId: 'list-7',
        position: 3,
        hands: { whole: 'mine', steps: { cortex: 'shared' } },
      }),
      procedure,
    );
    expect(note?.rows).toEqual([{ reason: 'reason not noted', cases: '12 of 12', each: '9\u00A0s' }]);
    expect(JSON.stringify(note)).not.toMatch(/A1\b|list-7|position|shared|2026/);
  });

  it('leaves out the surgeon’s own other work, cases left out, and other procedures', () => {
    const own = cases(12, () => [waiting('other-work', 30)]);
    expect(waitingNote(own, procedure)).toBeNull();
    const leftOut = { reason: 'other' as const, timesSeen: false, at: '2026-05-01T00:00:00Z' };
    expect(
      waitingNote(
        cases(12, () => [waiting('machine', 30)], { leftOut }),
        procedure,
      ),
    ).toBeNull();
    expect(
      waitingNote(
        cases(12, () => [waiting('machine', 30)], { procedureId: 'other' }),
        procedure,
      ),
    ).toBeNull();
    expect(waitingNote([], procedure)).toBeNull();
  });
});
