import { describe, expect, it } from 'vitest';
import { pairOf } from '../../../src/lib/audit';
import type { Case } from '../../../src/lib/model';
import { pairView } from '../../../src/lib/rooms/choose/pair-view';
import { case_, fact, procedure, step, stretch } from '../../bench/made-up';

const pause = { id: 'pause', label: 'Pause' };
const plain = procedure(
  [step('a', { protectedParts: [pause] }), step('b')],
  [fact('nucleus', 'choice', ['medium', 'hard']), fact('axial-length', 'number')],
);

/** Forty cases of 41 … 80 s in order, so that percentiles can be read off. */
const forty = (more: (number: number) => Partial<Case> = () => ({})): Case[] =>
  Array.from({ length: 40 }, (_, place) =>
    case_(place + 1, [stretch('a', 100, 141 + place), stretch('b', 200, 230)], {
      events: [],
      protectedSeen: { pause: true },
      ...more(place + 1),
    }),
  );
const pair = (cases: readonly Case[]) => pairOf({ cases, lists: [], procedure: plain, stepId: 'a' });
const found = (cases: readonly Case[]) => {
  const result = pair(cases);
  if (result.kind === 'cannot') throw new Error(result.because);
  return result;
};

describe('the shorter and the longer case', () => {
  it('lie between the 15th and 40th and between the 75th and 95th percentile of the own times, the most recent there', () => {
    const { shorter, longer } = found(forty());
    expect(shorter.seconds).toBeGreaterThan(46);
    expect(shorter.seconds).toBeLessThan(57);
    expect(longer.seconds).toBeGreaterThan(70);
    expect(longer.seconds).toBeLessThan(79);
    expect(shorter.code).toBe('C16');
    expect(shorter.stretches).toEqual([{ start: 100, end: 156 }]);
    expect(shorter.because).toEqual([
      'in the shorter part of your own times, not the very shortest',
      'not returned to',
      'no event',
      'protected parts seen',
    ]);
    expect(longer.because).toEqual(['among the longer quarter of your own times, not the very longest', 'no event']);
  });

  it('lie, the shorter one, below the recorded median of its own kind of eye too', () => {
    // Short for all cases, and long for the short eyes: of those up to 60 s, 41 to 56 are the medium ones.
    const mixed = forty((number) => ({ facts: { nucleus: number <= 16 ? 'medium' : 'hard' } }));
    const { shorter } = found(mixed);
    const kin = mixed.filter(
      ({ facts }) => facts.nucleus === mixed.find(({ code }) => code === shorter.code)?.facts.nucleus,
    );
    const times = kin.map(({ stretches }) => stretches[0]!.seconds).sort((a, b) => a - b);
    expect(shorter.seconds).toBeLessThan((times[times.length / 2 - 1]! + times[times.length / 2]!) / 2);
  });

  it('are never noted by hand: there is no recording of those to be watched', () => {
    const source = { kind: 'by-hand' } as const;
    expect(found(forty((number) => (number === 16 ? { source } : {}))).shorter.code).not.toBe('C16');
    expect(pair(forty(() => ({ source })))).toMatchObject({ kind: 'cannot' });
  });

  it('are called uneventful where that is known, and nowhere else', () => {
    expect(found(forty()).shorter.uneventful).toBe(true);
    expect(found(forty(() => ({ events: null }))).shorter.uneventful).toBe(false);
    const { view } = pairView(
      forty(() => ({ events: null })),
      [],
      plain,
      'a',
    );
    expect(view.kind === 'pair' && view.cases.map(({ title }) => title)).toEqual(['Shorter', 'Longer']);
    expect(
      view.kind === 'pair' && view.cases.every(({ time }) => /^0:\d\d as recorded$|^1:\d\d as recorded$/.test(time)),
    ).toBe(true);
  });

  it('are never one with an event, returned to, or with a protected part missed', () => {
    const event = {
      kind: 'other',
      stepId: 'a',
      serious: false,
      nearMiss: true,
      noticed: 'during',
      reviewed: null,
    } as const;
    const without = (numbers: readonly number[], more: Partial<Case>) =>
      found(forty((number) => (numbers.includes(number) ? more : {})));
    expect(without([16], { events: [event] }).shorter.code).toBe('C15');
    expect(without([16, 15], { returnsNoted: { a: 1 } }).shorter.code).toBe('C14');
    expect(without([16], { protectedSeen: { pause: false } }).shorter.code).toBe('C15');
    const longest = found(forty()).longer.code;
    expect(without([Number(longest.slice(1))], { events: [event] }).longer.code).not.toBe(longest);
  });

  it('are of the same kind of eye before they are recent', () => {
    const eyes = found(
      forty((number) => ({
        facts: { nucleus: number > 12 && number < 34 ? 'medium' : 'hard', 'axial-length': number === 8 ? 24 : 23.5 },
      })),
    );
    expect(eyes.different).toEqual([]);
    expect(eyes.same).toEqual(expect.arrayContaining([expect.stringMatching(/^nucleus (medium|hard)$/)]));
    const apart = found(forty((number) => ({ facts: { nucleus: number < 20 ? 'medium' : 'hard' } })));
    expect(apart.different.every((words) => words === 'nucleus medium against nucleus hard')).toBe(true);
  });

  it('are preferred with recordings and with everything answered', () => {
    const recording = { size: 1, fingerprint: 'f', label: null };
    const { shorter } = found(forty((number) => (number === 9 ? { recording } : {})));
    expect(shorter).toMatchObject({ code: 'C9', hasRecording: true });
    const { shorter: answered } = found(forty((number) => (number === 11 ? {} : { events: null, protectedSeen: {} })));
    expect(answered.code).toBe('C11');
  });

  it('say what is not known of them', () => {
    const result = found(forty(() => ({ events: null, protectedSeen: {} })));
    expect(result.said).toEqual([
      'Nothing about these eyes was entered in both cases, so they may differ.',
      'Events were not answered in both cases.',
    ]);
    expect(result.shorter.because).not.toContain('no event');
    expect(result.shorter.because).not.toContain('protected parts seen');
  });

  it('cannot be chosen from too few cases, where it was returned to in each, or for a step that is not there', () => {
    expect(pair(forty().slice(0, 11))).toEqual({
      kind: 'cannot',
      because: 'A pair needs 12 cases with this step that were not noted by hand; there are 11.',
    });
    expect(pair(forty(() => ({ returnsNoted: { a: 1 } }))).kind).toBe('cannot');
    expect(pairOf({ cases: forty(), lists: [], procedure: plain, stepId: 'nowhere' })).toEqual({
      kind: 'cannot',
      because: 'This step is not in the record.',
    });
    expect(pair([]).kind).toBe('cannot');
    const one = (place: number) => case_(place + 1, [stretch('a', 0, 60 + place)]);
    expect(pair(Array.from({ length: 20 }, (_, place) => one(place))).kind).toBe('pair');
  });

  it('cannot be chosen where the times do not differ', () => {
    const alike = forty(() => ({ stretches: [stretch('a', 100, 130), stretch('b', 200, 230)] }));
    expect(pair(alike)).toEqual({
      kind: 'cannot',
      because: 'These times hardly differ, so no case stands out as the longer one of a pair.',
    });
  });

  it('of a merged step show where its parts lie in the recording', () => {
    const merging = procedure([step('a', { mergeOf: ['p', 'q'] }), step('p'), step('q'), step('b')]);
    const cases = Array.from({ length: 30 }, (_, place) =>
      place === 0
        ? case_(1, [stretch('a', 0, 50)])
        : case_(place + 1, [stretch('p', 0, 20 + place), stretch('q', 20 + place, 50 + place)]),
    );
    const result = pairOf({ cases, lists: [], procedure: merging, stepId: 'a' });
    expect(result.kind === 'pair' && result.shorter.stretches).toHaveLength(2);
  });
});
