import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Case } from '../../../src/lib/model';
import {
  downstreamOf,
  gate,
  protectedPartShares,
  protectedPartsFallen,
  leavesOutAnEvent,
  type GateInput,
} from '../../../src/lib/safety';
import { answered, list, minor, nearMiss, none, operation, reviewed, tear } from '../../made-up/events';

const asked = (over: Partial<GateInput>): GateInput => ({
  procedure: operation,
  stepId: 'cortex',
  windowCases: none(20),
  ...over,
});
const codes = (over: Partial<GateInput>) => gate(asked(over)).reasons.map(({ code }) => code);

describe('the gate', () => {
  it('is open without serious events, whatever else was noted', () => {
    expect(gate(asked({ windowCases: answered([minor], [nearMiss], null, [{ ...tear, nearMiss: true }]) }))).toEqual({
      open: true,
      final: false,
      reasons: [],
    });
  });

  it('is closed while a serious event waits for its review, whichever step it belongs to, and opens with it', () => {
    const elsewhere = { ...tear, stepId: 'wound' };
    expect(gate(asked({ windowCases: answered([], [elsewhere]) }))).toMatchObject({ open: false, final: false });
    expect(gate(asked({ windowCases: answered([], [tear]) })).reasons).toEqual([
      { code: 'unreviewed', event: 'posterior capsule tear', step: 'Cortex', timed: true },
    ]);
    expect(codes({ windowCases: answered([], [reviewed(tear)]) })).toEqual([]);
    expect(gate(asked({ windowCases: answered([{ ...tear, kind: 'other', stepId: null }]) })).reasons).toEqual([
      { code: 'unreviewed', event: 'other', step: null, timed: true },
    ]);
  });

  it('stays closed for this result with two serious events tied to the step or one after it', () => {
    expect(downstreamOf(operation, 'cortex')).toEqual(['lens']);
    const two = answered([reviewed(tear)], [reviewed({ ...tear, stepId: 'lens' })]);
    expect(gate(asked({ windowCases: two }))).toMatchObject({ open: false, final: true });
    expect(gate(asked({ windowCases: two })).reasons).toEqual([
      { code: 'two-serious', count: 2, steps: ['Cortex', 'Lens'] },
    ]);
    expect(codes({ windowCases: two, stepId: 'wound' })).toEqual([]);
    expect(codes({ windowCases: answered([reviewed(tear), reviewed(tear)]) })).toEqual(['two-serious']);
    expect(codes({ windowCases: answered([reviewed(tear)], [reviewed({ ...tear, stepId: 'rhexis' })]) })).toEqual([]);
  });

  it('counts serious events of the same lists in operations that were not timed', () => {
    expect(codes({ lists: [list(1, { untimedEvents: [tear] })] })).toEqual(['unreviewed']);
    expect(codes({ lists: [list(9, { untimedEvents: [tear] })] })).toEqual([]);
    expect(
      codes({ windowCases: answered([reviewed(tear)]), lists: [list(1, { untimedEvents: [reviewed(tear)] })] }),
    ).toEqual(['two-serious']);
  });

  it('is closed by an unreviewed signal of the monitor', () => {
    expect(codes({ monitorSignalled: true })).toEqual(['monitor']);
  });

  it('is closed by an event noticed later, so that a stored result is asked about again', () => {
    expect(codes({ windowCases: answered([{ ...tear, noticed: 'later' }]) })).toEqual(['unreviewed']);
    expect(codes({ windowCases: answered([reviewed({ ...tear, noticed: 'later' })]) })).toEqual([]);
  });
});

describe('protected parts', () => {
  const seen = (...answers: (boolean | null)[]): Case[] =>
    none(answers.length).map((one, at) => {
      const answer = answers[at];
      const protectedSeen: Case['protectedSeen'] = typeof answer === 'boolean' ? { pause: answer } : {};
      return { ...one, protectedSeen };
    });
  const of = (yes: number, no: number) =>
    seen(...Array.from({ length: yes }, () => true), ...Array.from({ length: no }, () => false));

  it('are shares of the cases in which they were looked for', () => {
    expect(protectedPartShares(seen(true, false, null, null), ['pause', 'refill'])).toEqual([
      { protectedPartId: 'pause', seen: 1, looked: 2, share: 0.5 },
      { protectedPartId: 'refill', seen: 0, looked: 0, share: null },
    ]);
  });

  it('have fallen when two cases or more in twenty are missing beside the start', () => {
    expect(protectedPartsFallen(of(40, 0), of(18, 2), ['pause'])).toMatchObject([
      { protectedPartId: 'pause', missing: 2 },
    ]);
    expect(protectedPartsFallen(of(40, 0), of(19, 1), ['pause'])).toEqual([]);
    expect(protectedPartsFallen(of(36, 4), of(16, 4), ['pause'])).toHaveLength(1); // 90 % to 80 %, in floating point
    expect(protectedPartsFallen(of(40, 0), of(38, 2), ['pause'])).toEqual([]); // two in forty
    expect(protectedPartsFallen(of(40, 0), of(2, 1), ['pause'])).toEqual([]); // one of the three looked for
  });

  it('say nothing where they were not looked for in one of the two', () => {
    expect(protectedPartsFallen(seen(null, null), of(0, 20), ['pause'])).toEqual([]);
    expect(protectedPartsFallen(of(20, 0), seen(null), ['pause'])).toEqual([]);
  });

  it('close the gate for good, with the numbers', () => {
    const closed = gate(asked({ startCases: of(40, 0), windowCases: of(17, 3), protectedPartIds: ['pause'] }));
    expect(closed).toMatchObject({ open: false, final: true });
    const [start, window] = [
      { seen: 40, looked: 40 },
      { seen: 17, looked: 20 },
    ];
    expect(closed.reasons).toEqual([{ code: 'protected-part', part: 'Lens identity pause', start, window }]);
  });

  it('more seen than before never closes it', () => {
    fc.assert(
      fc.property(fc.nat(40), fc.nat(20), (a, b) => {
        const fallen = protectedPartsFallen(of(a, 40 - a), of(b, 20 - b), ['pause']);
        expect(fallen.length > 0).toBe(a / 40 - b / 20 > 0.1 - 1e-9);
      }),
    );
  });
});

describe('leaving out', () => {
  it('a case cannot be left out because of an event of the practised step, or of a step not known', () => {
    const [withEvent] = answered([tear]);
    const [ofNoStep] = answered([{ ...tear, stepId: null }]);
    expect(leavesOutAnEvent(withEvent!, 'complication-outside-the-step', 'cortex')).toBe('event-of-step');
    expect(leavesOutAnEvent(withEvent!, 'complication-outside-the-step', 'wound')).toBeNull();
    expect(leavesOutAnEvent(ofNoStep!, 'complication-outside-the-step', 'wound')).toBe('event-of-step');
    expect(leavesOutAnEvent(withEvent!, 'recording-incomplete', 'cortex')).toBeNull();
    expect(leavesOutAnEvent(answered(null)[0]!, 'complication-outside-the-step', 'cortex')).toBeNull();
  });
});
