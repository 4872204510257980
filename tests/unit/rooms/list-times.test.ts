import { describe, expect, it } from 'vitest';
import { timeName, timesGrid } from '../../../src/lib/rooms/lists/list-times';
import { timesFromGrid } from '../../../src/lib/rooms/lists/list-times-form';
import { readFigures, readTwoWays } from '../../../src/lib/rooms/lists/typed-clock';
import { aCase, aList, aRecord, smallProcedure as phaco } from '../../made-up/record';

describe('figures typed without a colon', () => {
  it.each([
    ['123', 83],
    ['1.23', 83],
    ['1,23', 83],
    ['1:23', 83],
    ['1023', 623],
    ['45', 45],
    ['90', 90],
    ['2.05', 125],
    ['83 s', 83],
  ])('as a clock %s is %i s', (typed, seconds) => expect(readFigures(typed, 'clock')).toEqual({ seconds }));

  it.each([
    ['123', 123],
    ['1.5', 1.5],
    ['1:23', 83],
  ])('as seconds %s is %d s', (typed, seconds) => expect(readFigures(typed, 'seconds')).toEqual({ seconds }));

  it.each(['190', '1.75', '1.5', 'x', '0'])('says what is wrong with %s', (typed) =>
    expect(readFigures(typed, 'clock')).toHaveProperty('problem'),
  );

  it('asks only about what can be read in two ways', () =>
    expect(['123', '1.23', '45', '1:23', '2m3s'].filter(readTwoWays)).toEqual(['123', '1.23']));
});

const fresh = (n: number) => aCase(n, { listId: 'list-1', stretches: [], events: null, source: { kind: 'typed' } });
const cases = [fresh(1), fresh(2)];
const [first, second] = cases as [(typeof cases)[0], (typeof cases)[0]];
const STEP = phaco.steps[0]!.id;
const none = new Set<string>();
const sentOf = (texts: Record<string, string>, now = cases) => ({
  ...Object.fromEntries(now.map(({ id, version }) => [`${id}.version`, [String(version)]])),
  ...Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, [text]])),
});
const send = (texts: Record<string, string>, now = cases) =>
  timesFromGrid(sentOf(texts, now), now, phaco, [STEP], none);

describe('the grid of a list', () => {
  const all = { allMine: 'yes', noEvent: 'yes', byHand: 'yes', figures: 'clock' };

  it('stores times, whose hands, no event and where the times come from as one change a case', () => {
    const { changed, errors } = send({ ...all, [timeName(first.id, STEP)]: '123' });
    expect(errors).toEqual([]);
    expect(changed.map((each) => each.case)).toMatchObject([
      {
        id: first.id,
        stretches: [{ stepId: STEP, seconds: 83, start: null }],
        events: [],
        source: { kind: 'by-hand' },
      },
      { id: second.id, stretches: [], events: [], source: { kind: 'typed' } },
    ]);
  });

  it('changes nothing when it is sent twice', () => {
    const texts = { ...all, [timeName(first.id, STEP)]: '123' };
    const stored = send(texts).changed.map((each) => each.case);
    expect(send(texts, stored).changed).toEqual([]);
    const shown = timesGrid(aList(1), aRecord({ cases: stored, lists: [aList(1)] }), none, [STEP]);
    expect(shown.rows[0]?.times).toEqual({ [STEP]: '1:23' });
  });

  it('asks what 123 means, and whose hands, before anything is stored', () => {
    const { changed, errors } = send({ [timeName(first.id, STEP)]: '123' });
    expect(changed).toEqual([]);
    expect(errors.map(({ field }) => field)).toEqual(['figures', 'allMine']);
  });

  it('names the case and the step of a time it cannot read', () => {
    const { errors } = send({ ...all, [timeName(second.id, STEP)]: '1:75' });
    expect(errors).toHaveLength(1);
    expect(errors[0]?.field).toBe(timeName(second.id, STEP));
    expect(errors[0]?.message.startsWith(`${second.code}, ${phaco.steps[0]!.label}: `)).toBe(true);
  });

  it('takes an emptied time away, and leaves steps alone that were not asked', () => {
    const other = phaco.steps[1]!.id;
    const length = (stepId: string) => ({
      stepId,
      start: null,
      end: null,
      seconds: 50,
      kind: 'step' as const,
      reason: null,
    });
    const one = aCase(3, {
      listId: 'list-1',
      events: [],
      source: { kind: 'by-hand' },
      stretches: [length(STEP), length(other)],
    });
    const { changed } = send({ byHand: 'yes', [timeName(one.id, STEP)]: '' }, [one]);
    expect(changed[0]?.case.stretches).toEqual([length(other)]);
  });

  it('leaves times alone that came from a file, are hidden, or are kept as they are', () => {
    const timed = aCase(4, { listId: 'list-1' });
    expect(timed.stretches.length).toBeGreaterThan(0);
    const hidden = aCase(5, { listId: 'list-1', source: { kind: 'typed' } });
    const kept = aCase(6, { listId: 'list-1', keptAsItIs: { since: '2026-01-01T00:00:00.000Z', why: 'a claim' } });
    const file = { ...timed, source: { kind: 'file' as const, importId: 'import-1' as const, row: 2 } };
    const rows = [file, hidden, kept];
    const texts = Object.fromEntries(rows.map(({ id }) => [timeName(id, STEP), '1:00']));
    const { changed, errors } = timesFromGrid(
      sentOf({ ...all, ...texts }, rows),
      rows,
      phaco,
      [STEP],
      new Set([hidden.id]),
    );
    expect([changed, errors]).toEqual([[], []]);
  });
});
