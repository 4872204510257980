import { describe, expect, it } from 'vitest';
import { asPlanned, asPlannedWords, plannedPositions, planKey } from '../../../src/lib/rooms/lists/timing-plan';
import { nextListFromForm, planFromForm, timingPlanView } from '../../../src/lib/rooms/lists/timing-plan-view';
import { aCase, aList } from '../../made-up/record';

const three = { perList: 3, seed: 7 };
const day = (n: number) => `2026-03-${String(n).padStart(2, '0')}`;

describe('which places of a list are timed', () => {
  it('is the same for the same seed and list, and another for another', () => {
    expect(plannedPositions(day(12), 9, three)).toEqual(plannedPositions(day(12), 9, three));
    const draws = (seed: number) =>
      Array.from({ length: 20 }, (_, n) => plannedPositions(day(n + 1), 9, { ...three, seed }).join());
    expect(new Set(draws(7)).size).toBeGreaterThan(10);
    expect(draws(7)).not.toEqual(draws(8));
  });

  it('is three different places of those there are, in order', () => {
    for (let n = 1; n <= 28; n += 1) {
      const places = plannedPositions(day(n), 8, three);
      expect(places).toHaveLength(3);
      expect(new Set(places).size).toBe(3);
      expect([...places].sort((a, b) => a - b)).toEqual(places);
      expect(places.every((place) => place >= 1 && place <= 8)).toBe(true);
    }
    expect(plannedPositions(day(1), 2, three)).toEqual([1, 2]);
    expect(plannedPositions(day(1), 0, three)).toEqual([]);
    expect(plannedPositions(day(1), 4, { perList: 'all', seed: 7 })).toEqual([1, 2, 3, 4]);
  });

  it('keeps the draws of the places a shorter list still has', () => {
    for (let n = 1; n <= 28; n += 1) {
      const long = plannedPositions(day(n), 9, three);
      const short = plannedPositions(day(n), 8, three);
      expect(long.filter((place) => place <= 8).every((place) => short.includes(place))).toBe(true);
    }
  });

  // Chi-squared with 9 degrees of freedom: 27.9 is passed by chance once in a thousand draws of this size.
  it('gives every place the same chance', () => {
    const counts = Array.from({ length: 10 }, () => 0);
    const lists = 3000;
    for (let n = 0; n < lists; n += 1)
      for (const place of plannedPositions(`list ${n}`, 10, three)) counts[place - 1] = (counts[place - 1] ?? 0) + 1;
    const expected = (3 * lists) / 10;
    // Without putting back, the variance of a count is that of a binomial with chance 3/10.
    const chi = (counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0) * (9 / 10)) / (7 / 10);
    expect(chi).toBeLessThan(27.9);
  });

  it('rests on what is known before the list: its day or its number', () => {
    expect(planKey({ kind: 'date', date: day(12) })).toBe(day(12));
    expect(planKey({ kind: 'number', number: 12 })).toBe('list 12');
    expect(planKey({ kind: 'month', month: '2026-03' })).toBeNull();
    expect(planKey({ kind: 'unknown' })).toBeNull();
  });
});

describe('how far timing kept to the plan', () => {
  const lists = [1, 2, 3].map((n) => aList(n, { operated: 9 }));
  const [first = []] = [plannedPositions('list 1', 9, three)];
  const onPlan = first.map((position, index) => aCase(index + 1, { listId: 'list-1', position }));
  const offPlace = [1, 2, 3, 4, 5, 6, 7, 8, 9].find((place) => !plannedPositions('list 2', 9, three).includes(place));

  it('counts timed, operated, drawn and timed as drawn', () => {
    const off = aCase(9, { listId: 'list-2', position: offPlace ?? null });
    const untimed = aCase(10, { listId: 'list-3', position: 1, stretches: [] });
    const told = asPlanned([...onPlan, off, untimed], lists, three);
    expect(told).toEqual({ timed: 4, operated: 18, asPlanned: 3, planned: 6 });
    expect(asPlannedWords(told)).toBe('4 timed of 18 operated, 3 as planned.');
  });

  it('says what is not known: no plan, lists that do not say, cases without a list or a place', () => {
    expect(asPlannedWords(asPlanned(onPlan, lists, null))).toBe('3 timed of 9 operated; there is no timing plan.');
    const unsaid = asPlanned(onPlan, [aList(1)], three);
    expect(unsaid.operated).toBeNull();
    expect(asPlannedWords(unsaid)).toContain('3 timed; how many were operated is not noted for every list');
    expect(asPlanned([aCase(1)], [], three)).toEqual({ timed: 1, operated: null, asPlanned: 0, planned: 0 });
    const placeless = onPlan.map((one) => ({ ...one, position: null }));
    expect(asPlanned(placeless, lists, three).asPlanned).toBe(0);
    expect(asPlanned(onPlan, [aList(1, { operated: 9, when: { kind: 'unknown' } })], three).asPlanned).toBe(0);
  });

  it('never holds fewer operations than the record shows', () => {
    const short = [aList(1, { operated: 2 })];
    const cases = [1, 2, 3].map((n) => aCase(n, { listId: 'list-1', position: n }));
    expect(asPlanned(cases, short, { perList: 'all', seed: 1 })).toMatchObject({ operated: 3, asPlanned: 3 });
  });
});

describe('the page of the plan', () => {
  const fields = (over: Record<string, string>) =>
    Object.fromEntries(Object.entries(over).map(([name, text]) => [name, [text]]));

  it('keeps its seed, so that no draw can be picked', () => {
    expect(planFromForm(fields({ perList: 'some', count: '4' }), null, 99).plan).toEqual({ perList: 4, seed: 99 });
    expect(planFromForm(fields({ perList: 'all' }), three, 99).plan).toEqual({ perList: 'all', seed: 7 });
    for (const count of ['', '0', '81', 'x'])
      expect(planFromForm(fields({ perList: 'some', count }), three, 1).errors[0]?.field).toBe('count');
  });
  it('takes a day or a number, never a month', () => {
    expect(nextListFromForm(fields({ when: day(12), operated: '9' })).list).toEqual({
      when: { kind: 'date', date: day(12) },
      operated: 9,
      key: day(12),
    });
    expect(nextListFromForm(fields({ when: '31', operated: '9' })).list?.key).toBe('list 31');
    expect(nextListFromForm(fields({ when: '2026-03', operated: '' })).errors.map(({ field }) => field)).toEqual([
      'when',
      'operated',
    ]);
    expect(nextListFromForm(fields({ when: '', operated: '3' })).errors.map(({ field }) => field)).toEqual(['when']);
  });
  it('says which places to time, without a time anywhere', () => {
    const view = timingPlanView(three, { when: { kind: 'number', number: 31 }, operated: 9, key: 'list 31' });
    expect(view.plan).toBe('3 of every list, drawn by chance.');
    expect(view.draw).toEqual({
      title: 'List 31, 9 operations',
      places: plannedPositions('list 31', 9, three),
      words: `Time the cases in these places: ${plannedPositions('list 31', 9, three).join(', ')}.`,
    });
    expect(timingPlanView(three, { when: { kind: 'date', date: day(3) }, operated: 2, key: day(3) }).draw?.words).toBe(
      'Time every case of this list.',
    );
    expect(timingPlanView(null, null)).toEqual({ values: { perList: 'some', count: '3' }, plan: null, draw: null });
  });
});
