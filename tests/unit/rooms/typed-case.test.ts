import { describe, expect, it } from 'vitest';
import { aheadOfTimes } from '../../../src/lib/rooms/cases/new-case-view';
import { typedFacts } from '../../../src/lib/rooms/cases/typed-case';
import { timeNames, typedTimes } from '../../../src/lib/rooms/cases/typed-times';
import { aCase, aList, smallProcedure } from '../../made-up/record';

const facts = (fields: Record<string, string | string[]>, cases = [aCase(1)], lists = [aList(1)]) =>
  typedFacts(asFields(fields), smallProcedure, cases, lists);
const times = (fields: Record<string, string>) => typedTimes(asFields(fields), smallProcedure);
const asFields = (fields: Record<string, string | string[]>) =>
  Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, Array.isArray(value) ? value : [value]]));
const answered = { code: 'B7', hands: 'mine', events: 'none' };

describe('typing a case in: facts before times', () => {
  it('takes facts, hands and events; what is left empty is not entered', () => {
    const { typed, errors } = facts({
      ...answered,
      list: 'list-1',
      position: '3',
      'fact-nucleus': 'hard',
      'fact-more': 'f',
    });
    expect(errors).toEqual([]);
    expect(typed).toEqual({
      code: 'B7',
      list: { kind: 'known', id: 'list-1' },
      position: 3,
      facts: { nucleus: 'hard', 'floppy-iris': true, toric: false },
      hands: { whole: 'mine', steps: {} },
      events: [],
    });
  });

  it('must be told whose hands, and whether there was an event', () => {
    expect(facts({ code: 'B7' }).errors.map(({ field }) => field)).toEqual(['hands', 'events']);
  });

  it('wants the steps that were not mine, and the step at which it was taken over', () => {
    expect(facts({ ...answered, hands: 'some' }).errors[0]?.message).toContain('tick the steps');
    expect(facts({ ...answered, hands: 'some', notMine: ['cortex'] }).typed.hands.steps).toEqual({
      cortex: 'someone-else',
    });
    expect(facts({ ...answered, hands: 'taken-over' }).errors[0]?.message).toContain('at which step');
    expect(facts({ ...answered, hands: 'taken-over', takenOverAt: 'cortex' }).typed.hands.steps).toEqual({
      cortex: 'taken-over',
    });
  });

  it('takes an event with kind, weight and when it was noticed, and asks for what is missing', () => {
    const yes = { ...answered, events: 'yes' };
    expect(facts(yes).errors.map(({ field }) => field)).toEqual(['kind', 'weight', 'noticed']);
    const { typed, errors } = facts({
      ...yes,
      kind: 'tear',
      weight: 'serious',
      noticed: 'during',
      eventStep: 'cortex',
    });
    expect(errors).toEqual([]);
    expect(typed.events).toEqual([
      { kind: 'tear', stepId: 'cortex', serious: true, nearMiss: false, noticed: 'during', reviewed: null },
    ]);
  });

  it.each([
    ['', 'give the case a code of your own'],
    ['A1', 'A1 is already in the record'],
    ['12345678', 'could identify a patient'],
    ['Smith, John', 'could identify a patient'],
    ['x'.repeat(41), 'at most 40'],
  ])('refuses the code %j', (code, why) => {
    expect(facts({ ...answered, code }).errors[0]).toMatchObject({
      field: 'code',
      message: expect.stringContaining(why),
    });
  });

  it('makes a new list by date, month, number or nothing, and refuses anything else', () => {
    const made = (newListWhen: string) => facts({ ...answered, list: 'new', newListWhen });
    expect(made('2026-03-12').typed.list).toMatchObject({ when: { kind: 'date', date: '2026-03-12' } });
    expect(made('2026-03').typed.list).toMatchObject({ when: { kind: 'month', month: '2026-03' } });
    expect(made('14').typed.list).toMatchObject({ when: { kind: 'number', number: 14 } });
    expect(made('').typed.list).toMatchObject({ when: { kind: 'unknown' } });
    expect(made('last Tuesday').errors[0]?.field).toBe('newListWhen');
  });

  it('refuses letters that are not on the list, and 0 beside a letter', () => {
    expect(facts({ ...answered, 'fact-more': 'FQ' }).errors[0]?.message).toContain('"Q"');
    expect(facts({ ...answered, 'fact-more': '0F' }).errors[0]?.message).toContain('stands alone');
  });
});

describe('typing a case in: times', () => {
  it.each([
    ['83', 83],
    ['83 s', 83],
    ['1:23', 83],
    ['1m23s', 83],
    ['0:01:23', 83],
    ['83,5', 83.5],
  ])('takes %j as %d seconds', (text, seconds) => {
    const { times: typed, errors } = times({ 'time-cortex': text });
    expect(errors).toEqual([]);
    expect(typed.stretches).toEqual([
      { stepId: 'cortex', start: null, end: null, seconds, kind: 'step', reason: null },
    ]);
  });

  it('keeps waiting, protected parts and went back beside the step', () => {
    const { times: typed, errors } = times({
      'time-capsulorhexis': '2:00',
      'waiting-capsulorhexis': '20',
      'reason-capsulorhexis': 'lens-loading',
      'back-capsulorhexis': '1',
      'seen-refill': 'yes',
      'kept-refill': '5',
    });
    expect(errors).toEqual([]);
    expect(typed.stretches.map(({ kind, seconds, reason }) => [kind, seconds, reason])).toEqual([
      ['step', 120, null],
      ['waiting', 20, 'lens-loading'],
      ['protected', 5, 'refill'],
    ]);
    expect(typed.returnsNoted).toEqual({ capsulorhexis: 1 });
    expect(typed.protectedSeen).toEqual({ refill: true });
  });

  it('an empty field is a step not timed, never 0', () => {
    expect(times({ 'time-cortex': '40', 'time-side-port': ' ' }).times.stretches).toHaveLength(1);
  });

  it.each(['1:75', '-3', '0', 'long', '3:00:00'])('refuses %j and names the step', (text) => {
    const { errors } = times({ 'time-cortex': text, 'time-side-port': '12' });
    expect(errors[0]?.field).toBe(timeNames('cortex').time);
    expect(errors[0]?.message).toContain('Cortex aspiration');
  });

  it('refuses waiting as long as the step it lies in', () => {
    expect(times({ 'time-cortex': '40', 'waiting-cortex': '40' }).errors[0]?.message).toContain('as long as the step');
  });

  it('refuses a clock over two steps beside the same steps by themselves', () => {
    const merged = {
      ...smallProcedure,
      steps: smallProcedure.steps.map((step) =>
        step.id === 'cortex' ? { ...step, mergeOf: ['side-port', 'capsulorhexis'] } : step,
      ),
    };
    const { errors } = typedTimes({ 'time-cortex': ['90'], 'time-side-port': ['10'] }, merged);
    expect(errors[0]?.message).toContain('counts twice');
  });

  it('wants at least one time', () => {
    expect(times({}).errors[0]?.message).toContain('One step is enough');
  });
});

describe('a list that lies ahead', () => {
  const ahead = (fields: Record<string, string>, lists = [aList(1)]) =>
    aheadOfTimes(asFields(fields), lists, '2026-11-25');
  const june = { ...aList(1), when: { kind: 'month' as const, month: '2027-06' } };

  it('is asked about before times are typed, and refuses nothing', () => {
    const slip = { list: 'new', newListWhen: '2062-11-24' };
    expect(ahead(slip)).toMatch(/^Its day is after today .*check the date, or the clock/);
    expect(facts({ ...answered, ...slip }).errors).toEqual([]);
    expect(ahead({ list: 'list-1' }, [june])).toMatch(/^Its month is after today/);
  });

  it('is not made of today, tomorrow elsewhere, or a list without a date', () => {
    for (const when of ['2026-11-25', '2026-11-26', '2026-11', '2025-01-31', '7', ''])
      expect(ahead({ list: 'new', newListWhen: when })).toBeNull();
    expect(ahead({ list: '' })).toBeNull();
    expect(ahead({ list: 'list-1' })).toBeNull();
  });
});
