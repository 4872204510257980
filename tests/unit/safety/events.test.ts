import { describe, expect, it } from 'vitest';
import type { Case } from '../../../src/lib/model';
import { eventBounds, eventTally, takeovers, takeoversOfAny, handsOf, stepEventTally } from '../../../src/lib/safety';
import { answered, list, minor, nearMiss, none, reviewed, tear } from '../../made-up/events';

describe('counting events', () => {
  it('counts over answered cases only: not answered is not none', () => {
    const tally = eventTally(answered([], null, [minor], [tear, minor], [nearMiss], null));
    expect(tally).toMatchObject({
      cases: 6,
      answered: 4,
      withEvent: 3,
      withSerious: 1,
      nearMissOnly: 1,
      unreviewedSerious: 1,
    });
    expect(tally.byStep).toEqual({ cortex: 3 });
    expect(eventTally(answered([reviewed(tear)])).unreviewedSerious).toBe(0);
  });

  it('keeps an answer whose event is tied to no step, and says that it may belong here', () => {
    const untied = { ...tear, stepId: null };
    const cases = answered([], [untied], [tear], [tear, untied], null);
    expect(stepEventTally(cases, 'cortex')).toEqual({ cases: 5, answered: 4, withEvent: 2, withNone: 1, mayBelong: 1 });
    expect(stepEventTally(cases, 'another')).toMatchObject({ answered: 4, withEvent: 0, mayBelong: 2 });
  });

  it('counts operations of the same lists that were not timed, as far as they were answered for', () => {
    const lists = [
      list(1, { operated: 9, eventsAnsweredForAll: true, untimedEvents: [tear], nextDayKnown: 7 }),
      list(2, { operated: 8, nextDayKnown: null }),
      list(3, { operated: 30, eventsAnsweredForAll: true }),
    ];
    const tally = eventTally(none(8), lists);
    // List 1: 9 operated, 5 timed; list 2: 8 operated, 3 timed, not answered for; list 3 has none of these cases.
    expect(tally.untimed).toEqual({ operated: 9, answered: 4, withEvent: 1, withSerious: 1 });
    expect(tally.unreviewedSerious).toBe(1);
    expect(tally.nextDay).toEqual({ known: 7, of: 9 });
    expect(eventTally(none(8))).toMatchObject({ untimed: null, nextDay: null });
  });

  it('takes the timed ones of a list from the whole record, not from the part looked at', () => {
    const record = none(5);
    const lists = [list(1, { operated: 7, eventsAnsweredForAll: true })];
    expect(eventTally(record.slice(0, 2), lists, record).untimed).toMatchObject({ operated: 2, answered: 2 });
  });

  it('never counts fewer untimed operations than events written down for them', () => {
    expect(eventTally(none(5), [list(1, { untimedEvents: [tear, minor] })]).untimed).toEqual({
      operated: 2,
      answered: 2,
      withEvent: 2,
      withSerious: 1,
    });
    expect(eventTally(none(5), [list(1, { operated: 3 })]).untimed).toMatchObject({ operated: 0 });
  });
});

describe('what counts of events can rule out', () => {
  it('never asked: nothing', () => {
    expect(eventBounds(eventTally(answered(null, null)))).toEqual({ kind: 'never-asked', n: 2, answered: 0 });
    expect(eventBounds(eventTally([]))).toMatchObject({ kind: 'never-asked' });
  });

  it.each([
    // One-sided 95 %, 1 − 0.05^(1/n): Hanley and Lippman-Hand, JAMA 1983;249:1743 (0 of 14 about 3/14); exact values from R
    [14, 0.192636175650135],
    [20, 0.139108340668265],
    [30, 0.0950338528553042],
    [50, 0.0581550791169723],
  ])('none in %i answered', (n, upper) => {
    const bounds = eventBounds(eventTally([...none(n), ...answered(null)]));
    expect(bounds).toMatchObject({ kind: 'none', answered: n, n: n + 1 });
    if (bounds.kind === 'none') expect(bounds.upper95).toBeCloseTo(upper, 12);
  });

  it('with a true rate of 5 in 100 twenty cases pass without one more than one time in three', () => {
    const bounds = eventBounds(eventTally(none(20)));
    if (bounds.kind !== 'none') throw new Error(bounds.kind);
    expect(bounds.passUnseen).toBeCloseTo(0.95 ** 20, 12);
    expect(bounds.passUnseen).toBeGreaterThan(1 / 3);
  });

  it('some: the exact two-sided interval', () => {
    // Clopper and Pearson 1934; 1 of 29 from Newcombe, Stat Med 1998;17:857, table I, method 5: 0.0009 to 0.1776
    const of29 = eventBounds(eventTally(answered([minor], ...Array.from({ length: 28 }, () => []))));
    expect(of29).toMatchObject({ kind: 'some', events: 1, answered: 29 });
    if (of29.kind === 'some') {
      expect(of29.low).toBeCloseTo(0.000872646883579923, 9);
      expect(of29.high).toBeCloseTo(0.177644295488723, 9);
    }
    // scipy.stats.binomtest(1, 60).proportion_ci(): 0.04 to 8.9 in 100
    const of60 = eventBounds(eventTally(answered([minor], ...Array.from({ length: 59 }, () => []))));
    if (of60.kind === 'some') {
      expect(of60.low).toBeCloseTo(0.0004218744524641874, 9);
      expect(of60.high).toBeCloseTo(0.08939905005729891, 9);
    }
  });

  it('bounds a step both ways where an event may belong to it', () => {
    const cases = [...none(99), ...answered([{ ...tear, stepId: null }])];
    const bounds = eventBounds(stepEventTally(cases, 'cortex'));
    // scipy.stats.binomtest(1, 100).proportion_ci(): 0.0253 to 5.446 in 100; without it there is no lower end.
    expect(bounds).toMatchObject({ kind: 'some', events: 0, mayBelong: 1, answered: 100, low: 0 });
    if (bounds.kind === 'some') expect(bounds.high).toBeCloseTo(0.0544593853920806, 9);
  });

  it('gives no rate where only the cases with an event are answered', () => {
    const cases = answered(...Array.from({ length: 46 }, () => null), [tear], [minor]);
    expect(eventBounds(eventTally(cases))).toEqual({
      kind: 'only-events',
      n: 48,
      answered: 2,
      events: 2,
      mayBelong: 0,
    });
    expect(eventBounds(stepEventTally(cases, 'wound'))).toMatchObject({ kind: 'only-events', events: 0 });
    expect(eventBounds(eventTally([...cases, ...none(1)]))).toMatchObject({ kind: 'some', answered: 3 });
  });
});

describe('takeovers', () => {
  it('are counted over every case of the span', () => {
    const hands = (steps: Case['hands']['steps']): Case['hands'] => ({ whole: 'mine', steps });
    const cases = none(4).map((one, at) => ({ ...one, hands: hands(at === 0 ? { cortex: 'taken-over' } : {}) }));
    const whole: Case = { ...cases[1]!, hands: { whole: 'taken-over', steps: { rhexis: 'mine' } } };
    expect(takeovers([...cases, whole], 'cortex')).toMatchObject({ taken: 2, of: 5, estimate: 0.4 });
    expect(takeovers([...cases, whole], 'rhexis')).toMatchObject({ taken: 0, of: 5, low: 0 });
    expect(takeovers([], 'cortex')).toBeNull();
    expect(takeoversOfAny([...cases, whole])).toMatchObject({ taken: 2, of: 5, estimate: 0.4 });
    expect(takeoversOfAny(cases.slice(1))).toMatchObject({ taken: 0, of: 3 });
    expect(takeoversOfAny([])).toBeNull();
    expect(handsOf(whole, 'lens')).toBe('taken-over');
  });
});
