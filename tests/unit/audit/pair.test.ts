import { describe, expect, it } from 'vitest';
import { pairOf } from '../../../src/lib/audit';
import type { Case } from '../../../src/lib/model';
import { pairView } from '../../../src/lib/rooms/choose/pair-view';
import { hiddenCaseIds } from '../../../src/lib/rooms/goals/hidden-times';
import { randomStream } from '../../../src/lib/statistics';
import { case_, fact, procedure, step, stretch } from '../../made-up/cases';
import { recordOf } from '../../made-up/read-month';

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
  if (result.kind === 'cannot') throw new Error(result.why.code);
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
    const times = { sameEyes: false, adjusted: false };
    expect(shorter.why).toEqual([
      { code: 'shorter-part', times },
      { code: 'not-returned-to' },
      { code: 'no-event' },
      { code: 'protected-parts-seen' },
    ]);
    expect(longer.why).toEqual([{ code: 'longer-quarter', times }, { code: 'no-event' }]);
  });

  it('lie, the shorter one, below the recorded median of its own kind of eye too, in whatever record', () => {
    const middle = (times: readonly number[]) => {
      const sorted = [...times].sort((a, b) => a - b);
      const at = sorted.length / 2;
      return sorted.length % 2 ? sorted[Math.floor(at)]! : (sorted[at - 1]! + sorted[at]!) / 2;
    };
    const stream = randomStream(5, 2);
    let [held, adjusted] = [0, 0];
    for (let run = 0; run < 60; run += 1) {
      // A third of the eyes are hard and take longer, by little or by much; each kind has its own spread.
      const factor = 1 + stream.uniform() * 2;
      const cases = Array.from({ length: 36 }, (_, place) => {
        const hard = place % 3 === 0;
        const seconds = Math.round(60 * (hard ? factor : 1) * Math.exp((hard ? 0.4 : 0.2) * stream.normal()));
        return case_(place + 1, [stretch('a', 0, seconds), stretch('b', seconds, seconds + 30)], {
          events: [],
          facts: { nucleus: hard ? 'hard' : 'medium' },
        });
      });
      const result = pair(cases);
      if (result.kind === 'cannot') continue;
      held += 1;
      const shorter = cases.find(({ id }) => id === result.shorter.caseId)!;
      const of = (all: readonly Case[]) => middle(all.map(({ stretches }) => stretches[0]!.seconds));
      expect(result.shorter.seconds).toBe(shorter.stretches[0]!.seconds);
      expect(result.shorter.seconds).toBeLessThan(of(cases));
      expect(result.shorter.seconds).toBeLessThan(
        of(cases.filter(({ facts }) => facts.nucleus === shorter.facts.nucleus)),
      );
      expect(result.longer.seconds).toBeGreaterThan(result.shorter.seconds);
      // "The longer quarter of your own times" without another word must hold of the times as recorded.
      const above = cases.filter(({ stretches }) => stretches[0]!.seconds > result.longer.seconds).length;
      if (above > cases.length / 4) {
        adjusted += 1;
        expect(result.longer.why[0]).toMatchObject({ times: { adjusted: true } });
      }
    }
    expect(adjusted).toBeGreaterThan(5);
    // Not an empty promise: nearly every such record has a pair.
    expect(held).toBeGreaterThan(45);
  });

  it('name the eyes among which they were chosen', () => {
    const cases = Array.from({ length: 40 }, (_, place) => {
      const hard = place % 2 === 0;
      const seconds = (hard ? 150 : 60) + ((place * 7) % 40);
      return case_(place + 1, [stretch('a', 0, seconds), stretch('b', seconds, seconds + 30)], {
        events: [],
        facts: { nucleus: hard ? 'hard' : 'medium' },
      });
    });
    const within = { factId: 'nucleus', levels: ['hard'] };
    const result = pairOf({ cases, lists: [], procedure: plain, stepId: 'a', within });
    if (result.kind === 'cannot') throw new Error(result.why.code);
    // Recorded it is longer than most of the whole record.
    expect(result.shorter.seconds).toBeGreaterThan(100);
    expect(result.shorter.why[0]).toEqual({ code: 'shorter-part', times: { sameEyes: true, adjusted: true } });
  });

  it('show both times as recorded, and neither is of a running window, whose times are hidden', () => {
    const record = recordOf(53);
    const hidden = hiddenCaseIds(record);
    expect(hidden.size).toBe(13);
    const seen = record.cases.filter(({ id }) => !hidden.has(id));
    const { view } = pairView(seen, record.lists, record.procedures[0]!, 'practised');
    if (view.kind === 'none') throw new Error(view.because);
    for (const { code, time } of view.cases) {
      const one = record.cases.find((each) => each.code === code)!;
      const seconds = Math.round(one.stretches.find(({ stepId }) => stepId === 'practised')!.seconds);
      expect(hidden.has(one.id)).toBe(false);
      expect(time).toBe(`${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')} as recorded`);
    }
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
    expect(result.caveats).toEqual([{ code: 'no-fact-in-both' }, { code: 'events-not-answered', of: null }]);
    const codes = result.shorter.why.map(({ code }) => code);
    expect(codes).not.toContain('no-event');
    expect(codes).not.toContain('protected-parts-seen');
    const one = found(forty((number) => (number > 30 ? { events: null } : {})));
    expect(one.longer.code).toMatch(/^C3[1-9]$/);
    expect(one.caveats).toContainEqual({ code: 'events-not-answered', of: one.longer.code });
  });

  it('cannot be chosen from too few cases, where it was returned to in each, or for a step that is not there', () => {
    expect(pair(forty().slice(0, 11))).toEqual({
      kind: 'cannot',
      why: { code: 'too-few-cases', needed: 12, cases: 11 },
    });
    expect(pair(forty(() => ({ returnsNoted: { a: 1 } }))).kind).toBe('cannot');
    expect(pairOf({ cases: forty(), lists: [], procedure: plain, stepId: 'nowhere' })).toEqual({
      kind: 'cannot',
      why: { code: 'no-such-step' },
    });
    expect(pair([]).kind).toBe('cannot');
    const one = (place: number) => case_(place + 1, [stretch('a', 0, 60 + place)]);
    expect(pair(Array.from({ length: 20 }, (_, place) => one(place))).kind).toBe('pair');
  });

  it('cannot be chosen where the times do not differ', () => {
    const alike = forty(() => ({ stretches: [stretch('a', 100, 130), stretch('b', 200, 230)] }));
    expect(pair(alike)).toEqual({
      kind: 'cannot',
      why: { code: 'hardly-differ' },
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
