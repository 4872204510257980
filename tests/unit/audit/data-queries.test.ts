import { describe, expect, it } from 'vitest';
import { dataQueries as queries } from '../../../src/lib/audit';
import type { Case, Procedure } from '../../../src/lib/model';
import { atOnce } from '../../../src/lib/turns';
import { case_, length, procedure, step, stretch } from '../../made-up/cases';
import { plainProcedure, recordOf } from '../../bench/simulated-record';

const queriesOf = (cases: readonly Case[], of: Procedure, about?: (one: Case) => boolean) =>
  atOnce(queries(cases, of, about));

const four = procedure([step('a'), step('b'), step('c'), step('d'), step('polish', { optional: true })]);
const usual = (count: number, seconds = (place: number) => 60 + (place % 7)): Case[] =>
  Array.from({ length: count }, (_, place) =>
    case_(
      place + 1,
      ['a', 'b', 'c', 'd'].map((id) => length(id, seconds(place))),
    ),
  );

describe('queries', () => {
  it('ask about a time more than six robust SDs from the own ones, either way, and name the row of the file', () => {
    const odd = case_(50, [length('a', 900), ...['b', 'c', 'd'].map((id) => length(id, 60))], {
      source: { kind: 'file', importId: 'import-1', row: 51 },
    });
    const short = case_(51, [length('a', 3), ...['b', 'c', 'd'].map((id) => length(id, 60))]);
    expect(queriesOf([...usual(30), odd, short], four)).toEqual([
      {
        caseId: 'case-50',
        code: 'C50',
        stepId: 'a',
        row: 51,
        why: { code: 'far-from-own', seconds: 900, far: 'longer', step: 'A' },
      },
      expect.objectContaining({
        caseId: 'case-51',
        row: null,
        why: { code: 'far-from-own', seconds: 3, far: 'shorter', step: 'A' },
      }),
    ]);
    expect(queriesOf([...usual(30), odd, short], four, ({ code }) => code === 'C51')).toHaveLength(1);
  });

  it('do not ask about ordinary variation, rounded short steps, or a step that is always the same', () => {
    expect(queriesOf(recordOf({ cases: 300, usual: [60, 60, 60, 60], outliers: 0.05 }, 3), plainProcedure(4))).toEqual(
      [],
    );
    expect(
      queriesOf(
        usual(40, (place) => (place % 10 === 0 ? 6 : 5)),
        four,
      ),
    ).toEqual([]);
    expect(
      queriesOf(
        usual(40, () => 60),
        four,
      ),
    ).toEqual([]);
  });

  it('ask about one time among times that are all alike', () => {
    const odd = case_(50, [length('a', 900), ...['b', 'c', 'd'].map((id) => length(id, 60))]);
    expect(queriesOf([...usual(40, () => 60), odd], four).map(({ code }) => code)).toEqual(['C50']);
  });

  it('ask about half an hour for one step while the record is too short for a scale of its own', () => {
    const one = case_(1, [length('a', 2400), ...['b', 'c', 'd'].map((id) => length(id, 60))]);
    expect(queriesOf([one], four).map(({ why }) => why)).toEqual([
      { code: 'far-from-any', seconds: 2400, far: 'longer' },
    ]);
    expect(queriesOf(usual(3), four)).toEqual([]);
  });

  it('ask about two steps at once, once a pair, and not about marks less than a second apart or the same step', () => {
    const over = case_(1, [
      stretch('a', 0, 30),
      stretch('b', 20, 60),
      stretch('a', 50, 70),
      stretch('c', 70, 90),
      stretch('d', 89.5, 120),
    ]);
    const found = queriesOf([over], four);
    expect(found.map(({ why }) => why)).toEqual([{ code: 'overlap', steps: ['A', 'B'], seconds: 10 }]);
    const waiting = case_(2, [
      stretch('a', 0, 30),
      stretch('b', 10, 25, { kind: 'waiting', reason: 'machine' }),
      stretch('b', 30, 40),
      stretch('c', 40, 50),
    ]);
    expect(queriesOf([waiting], four)).toEqual([]);
  });

  it('ask about a case with fewer than half of the steps usually timed; optional steps and other hands do not count against it', () => {
    const one = case_(50, [length('a', 60)]);
    expect(queriesOf([...usual(30), one], four).map(({ why, stepId }) => [why, stepId])).toEqual([
      [{ code: 'few-steps', timed: 1, of: 4 }, null],
    ]);
    expect(queriesOf([...usual(30), case_(50, [length('a', 60), length('b', 60)])], four)).toEqual([]);
    // Of a case without any time nothing is half there.
    expect(queriesOf([...usual(30), case_(50, [])], four)).toEqual([]);
    const other = case_(
      50,
      ['a', 'b', 'c', 'd'].map((id) => length(id, 60)),
      { hands: { whole: 'someone-else', steps: {} } },
    );
    expect(queriesOf([...usual(30), other], four)).toEqual([]);
    const onlyTwo = Array.from({ length: 30 }, (_, place) =>
      case_(place + 1, [length('a', 60 + (place % 5)), length('b', 60)]),
    );
    expect(queriesOf(onlyTwo, four)).toEqual([]);
  });

  it('ask nothing of an empty record or of another procedure', () => {
    expect(queriesOf([], four)).toEqual([]);
    expect(queriesOf([case_(1, [length('a', 5000)], { procedureId: 'another' })], four)).toEqual([]);
  });
});
