import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  canUndo,
  edited,
  emptyLog,
  endStep,
  marksOf,
  newDraft,
  readTimingDraft,
  redone,
  returnedToAt,
  running,
  startStep,
  stepInHand,
  stretchesOf,
  toggleSeen,
  toggleWaiting,
  undone,
  type Edit,
  type Log,
} from '../../../src/lib/recording';

const steps = ['side-port', 'ovd-fill', 'capsulorhexis', 'iol-insertion'].map((id) => ({ id, parts: [] }));

/** An operation as it is marked: two steps, one returned to, waiting in one. */
function marked(): Log {
  let log: Log = emptyLog;
  log = startStep(log, 'side-port', 41.2);
  log = endStep(log, 52.0404);
  log = startStep(log, 'capsulorhexis', 131);
  log = toggleWaiting(log, 140);
  log = toggleWaiting(log, 150.5);
  log = endStep(log, 216);
  log = startStep(log, 'iol-insertion', 220);
  log = startStep(log, 'capsulorhexis', 236); // returned to: the one that ran ends here
  return endStep(log, 240);
}

describe('marks', () => {
  it('become the stretches of a case, in the order of the recording and to the millisecond', () => {
    expect(stretchesOf(marksOf(marked()))).toEqual({
      problems: [],
      stretches: [
        { stepId: 'side-port', start: 41.2, end: 52.04, seconds: 10.84, kind: 'step', reason: null },
        { stepId: 'capsulorhexis', start: 131, end: 216, seconds: 85, kind: 'step', reason: null },
        { stepId: 'capsulorhexis', start: 140, end: 150.5, seconds: 10.5, kind: 'waiting', reason: null },
        { stepId: 'iol-insertion', start: 220, end: 236, seconds: 16, kind: 'step', reason: null },
        { stepId: 'capsulorhexis', start: 236, end: 240, seconds: 4, kind: 'step', reason: null },
      ],
    });
    expect(returnedToAt(marksOf(marked()), 'capsulorhexis')).toEqual([236]);
  });

  it('know which step is in hand: the one that runs, else the first not marked after the last', () => {
    expect(stepInHand(emptyLog, steps)).toBe('side-port');
    expect(stepInHand(startStep(emptyLog, 'ovd-fill', 1), steps)).toBe('ovd-fill');
    expect(stepInHand(endStep(startStep(emptyLog, 'ovd-fill', 1), 2), steps)).toBe('capsulorhexis');
    expect(stepInHand(marked(), steps)).toBe(null);
  });

  it('say what keeps the case from being stored', () => {
    expect(stretchesOf(marksOf(emptyLog)).problems).toEqual([{ row: null, why: 'none' }]);
    const open = startStep(emptyLog, 'side-port', 3);
    expect(stretchesOf(marksOf(open)).problems).toEqual([{ row: 0, why: 'runs' }]);
    expect(stretchesOf(marksOf(endStep(open, 7204))).problems).toEqual([{ row: 0, why: 'too-long' }]);
    const both = endStep(startStep(marked(), 'incision', 300), 310);
    expect(stretchesOf(marksOf(both), { incision: ['side-port', 'main-incision'] }).problems).toEqual([
      { row: 5, why: 'twice' },
    ]);
  });

  it('do not turn an interval round: an end before its start is no end', () => {
    const log = startStep(emptyLog, 'side-port', 10);
    expect(running(marksOf(endStep(log, 9)), 'step')?.to).toBe(null);
    const done = endStep(log, 20);
    const moved = (edge: 'from' | 'to', at: number) => marksOf(edited(done, { do: 'move', row: 0, edge, at })).rows[0];
    expect(moved('from', 25)).toMatchObject({ from: 10, to: 20 });
    expect(moved('to', 5)).toMatchObject({ from: 10, to: 20 });
    expect(moved('to', 20.04)).toMatchObject({ from: 10, to: 20.04 });
  });

  it('waiting between steps belongs to no step, and ends with the step it is in', () => {
    const between = toggleWaiting(toggleWaiting(emptyLog, 1), 4);
    expect(marksOf(between).rows).toEqual([{ row: 0, kind: 'waiting', stepId: null, reason: null, from: 1, to: 4 }]);
    const within = endStep(toggleWaiting(startStep(emptyLog, 'ovd-fill', 1), 2), 3);
    expect(marksOf(within).rows.map(({ kind, to }) => [kind, to])).toEqual([
      ['step', 3],
      ['waiting', 3],
    ]);
  });

  it('a protected part is seen, not seen, not looked for', () => {
    const [one, two, three] = [1, 2, 3].map((times) => {
      let log: Log = emptyLog;
      for (let n = 0; n < times; n += 1) log = toggleSeen(log, 'lens-identity');
      return marksOf(log).seen;
    });
    expect([one, two, three]).toEqual([{ 'lens-identity': true }, { 'lens-identity': false }, {}]);
  });
});

const at = fc.integer({ min: 0, max: 20_000_000 }).map((value) => value / 1000);
const row = fc.nat({ max: 12 });
const id = fc.constantFrom('side-port', 'ovd-fill', 'capsulorhexis', '__proto__', 'constructor');
const kind = fc.constantFrom('step', 'waiting', 'protected');
const edit: fc.Arbitrary<Edit> = fc.oneof(
  fc.record({ do: fc.constant('open'), kind, stepId: id, reason: fc.option(id), at }),
  fc.record({ do: fc.constant('typed'), kind, stepId: id, reason: fc.option(id), from: at, to: at }),
  fc.record({ do: fc.constant('close'), row, at }),
  fc.record({ do: fc.constant('move'), row, edge: fc.constantFrom('from', 'to'), at }),
  fc.record({ do: fc.constant('reason'), row, reason: fc.option(id) }),
  fc.record({ do: fc.constant('remove'), row }),
  fc.record({ do: fc.constant('seen'), partId: id, seen: fc.option(fc.boolean()) }),
  fc.record({ do: fc.constant('hands'), stepId: id, hands: fc.constantFrom('mine', 'shared') }),
  fc.record({ do: fc.constant('answer'), checkpointId: id, answer: fc.option(fc.constantFrom('done', 'not')) }),
  fc.record({
    do: fc.constant('event'),
    event: fc.record({ kind: id, stepId: fc.option(id), serious: fc.boolean(), nearMiss: fc.boolean() }),
  }),
  fc.record({ do: fc.constant('no-event'), event: row }),
) as fc.Arbitrary<Edit>;
const log = fc.array(edit, { maxLength: 40 }).map((edits) => edits.reduce(edited, emptyLog));

describe('any edits at all', () => {
  it('leave intervals that run forwards, each with a number of its own', () => {
    fc.assert(
      fc.property(log, (drawn) => {
        const { rows } = marksOf(drawn);
        expect(rows.every(({ from, to }) => to === null || to > from)).toBe(true);
        expect(new Set(rows.map(({ row: number }) => number)).size).toBe(rows.length);
      }),
      { numRuns: 500 },
    );
  });

  it('are all undone and all done again', () => {
    fc.assert(
      fc.property(log, (drawn) => {
        let back = drawn;
        const seen = [marksOf(back)];
        while (canUndo(back)) seen.push(marksOf((back = undone(back))));
        expect(marksOf(back)).toEqual(marksOf(emptyLog));
        for (const before of seen.slice(0, -1).reverse()) expect(marksOf((back = redone(back)))).toEqual(before);
      }),
      { numRuns: 200 },
    );
  });

  it('come back from a draft as they were', () => {
    fc.assert(
      fc.property(log, at, (drawn, place) => {
        const draft = { ...newDraft('T1'), log: undone(drawn), at: place };
        const back = readTimingDraft(JSON.stringify(draft));
        expect(back).toEqual(JSON.parse(JSON.stringify(draft)));
        expect(marksOf(back?.log ?? emptyLog)).toEqual(marksOf(draft.log));
      }),
      { numRuns: 200 },
    );
  });
});

describe('a draft', () => {
  it('that is none is not taken for one', () => {
    for (const text of [null, '', '{', 'null', '[]', '{"format":"next-twenty/timing/2"}'])
      expect(readTimingDraft(text)).toBe(null);
    const good = { ...newDraft('T1'), recording: { size: 12, fingerprint: 'a'.repeat(64), duration: null } };
    expect(readTimingDraft(JSON.stringify(good))).toEqual(good);
    for (const wrong of [
      { at: -1 },
      { at: null },
      { code: 7 },
      { recording: { size: 0, fingerprint: 'a'.repeat(64), duration: null } },
      { recording: { size: 12, fingerprint: 'theatre-3.mp4', duration: null } },
      { log: { edits: [], holds: 1 } },
      { log: { edits: [{ do: 'open' }], holds: 0 } },
      { log: { edits: [{ do: 'erase' }], holds: 0 } },
    ])
      expect(readTimingDraft(JSON.stringify({ ...good, ...wrong }))).toBe(null);
  });

  it('of any odd text is read or refused, never an error', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        expect(readTimingDraft(text)).toBe(null);
      }),
      { numRuns: 1000 },
    );
  });
});
