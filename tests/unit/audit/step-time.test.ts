import { describe, expect, it } from 'vitest';
import { isMine, stepSecondsOf, waitingOf, waitingOfCase, timesReturnedTo } from '../../../src/lib/audit';
import { case_, length, stretch } from '../../made-up/cases';

describe('step time', () => {
  it('is the sum of own stretches', () => {
    const one = case_(1, [stretch('a', 0, 40), stretch('b', 40, 50), stretch('a', 50, 60)]);
    expect(stepSecondsOf(one, 'a')).toBe(50);
    expect(stepSecondsOf(one, 'b')).toBe(10);
  });

  it('takes out protected parts and waiting inside the step, counting an overlap of the two once', () => {
    const one = case_(1, [
      stretch('a', 0, 100),
      stretch('a', 10, 30, { kind: 'protected', reason: 'pause' }),
      stretch('a', 25, 45, { kind: 'waiting', reason: 'machine' }),
    ]);
    expect(stepSecondsOf(one, 'a')).toBe(65);
  });

  it('leaves in what lies outside the step, and other work done while another step waits', () => {
    const one = case_(1, [
      stretch('a', 0, 100),
      stretch('b', 60, 140, { kind: 'waiting', reason: 'lens-loading' }),
      stretch('b', 140, 180),
    ]);
    expect(stepSecondsOf(one, 'a')).toBe(100);
    expect(stepSecondsOf(one, 'b')).toBe(40);
    expect(waitingOf(one, 'b')).toBe(80);
    expect(waitingOfCase(one)).toBe(80);
  });

  it('takes waiting and protected parts with a length alone as inside their step', () => {
    const one = case_(1, [
      length('a', 90),
      length('a', 20, { kind: 'waiting', reason: 'machine' }),
      length('a', 5, { kind: 'protected', reason: 'pause' }),
    ]);
    expect(stepSecondsOf(one, 'a')).toBe(65);
    expect(waitingOf(one, 'a')).toBe(20);
  });

  it('is absent, never 0: not performed, by other hands, shared, or all of it waiting', () => {
    const stretches = [stretch('a', 0, 40), length('b', 30), length('b', 30, { kind: 'waiting', reason: 'machine' })];
    expect(stepSecondsOf(case_(1, stretches), 'c')).toBeNull();
    expect(stepSecondsOf(case_(1, stretches), 'b')).toBeNull();
    for (const hands of ['someone-else', 'taken-over', 'shared'] as const) {
      const one = case_(1, stretches, { hands: { whole: 'mine', steps: { a: hands } } });
      expect(stepSecondsOf(one, 'a')).toBeNull();
      expect(timesReturnedTo(one, 'a')).toBeNull();
      expect(isMine(one, 'b')).toBe(true);
    }
    const other = case_(1, stretches, { hands: { whole: 'someone-else', steps: { a: 'mine' } } });
    expect(stepSecondsOf(other, 'a')).toBe(40);
  });

  it('counts two stretches less than a second apart as one, with the time between', () => {
    const one = case_(1, [stretch('a', 0, 10), stretch('a', 10.5, 20)]);
    expect(stepSecondsOf(one, 'a')).toBe(20);
    expect(timesReturnedTo(one, 'a')).toBe(0);
  });

  it('counts overlapping stretches of one step once', () => {
    expect(stepSecondsOf(case_(1, [stretch('a', 0, 10), stretch('a', 5, 20)]), 'a')).toBe(20);
  });
});

describe('returned to', () => {
  it('is a further stretch after another step or at least a second', () => {
    expect(timesReturnedTo(case_(1, [stretch('a', 0, 10), stretch('a', 11, 20)]), 'a')).toBe(1);
    const through = case_(1, [
      stretch('a', 0, 10),
      stretch('b', 10, 10.4),
      stretch('a', 10.4, 20),
      stretch('a', 30, 31),
    ]);
    expect(timesReturnedTo(through, 'a')).toBe(2);
    expect(stepSecondsOf(through, 'a')).toBeCloseTo(20.6, 12);
  });

  it('is not a protected part or waiting in the middle of the step', () => {
    const one = case_(1, [
      stretch('a', 0, 10),
      stretch('a', 10, 30, { kind: 'protected', reason: 'pause' }),
      stretch('a', 30, 40),
      stretch(null, 40, 55, { kind: 'waiting', reason: 'machine' }),
      stretch('a', 55, 60),
    ]);
    expect(timesReturnedTo(one, 'a')).toBe(0);
    expect(stepSecondsOf(one, 'a')).toBe(25);
  });

  it('is counted in row order where only lengths are known', () => {
    const one = case_(1, [length('a', 10), length('a', 5), length('b', 3), length('a', 2)]);
    expect(timesReturnedTo(one, 'a')).toBe(1);
    expect(stepSecondsOf(one, 'a')).toBe(17);
  });

  it('is the count of the source where it gave one', () => {
    const one = case_(1, [length('a', 10)], { returnsNoted: { a: 3 } });
    expect(timesReturnedTo(one, 'a')).toBe(3);
    expect(timesReturnedTo(one, 'b')).toBeNull();
  });
});
