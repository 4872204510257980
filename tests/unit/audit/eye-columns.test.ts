import { describe, expect, it } from 'vitest';
import { eyeColumns } from '../../../src/lib/audit';
import type { FactValue } from '../../../src/lib/model';
import { fact, procedure, step } from '../../made-up/cases';

const nucleus = fact('nucleus', 'choice', ['soft', 'medium', 'hard', 'white']);
const toric = fact('toric', 'yes-no');
const axial = fact('axial-length', 'number');
const eyes = procedure([step('a'), step('b')], [nucleus, toric, axial]);

const holders = (...groups: readonly [number, Record<string, FactValue>][]) =>
  groups.flatMap(([count, facts]) => Array.from({ length: count }, () => ({ facts })));
const column = (result: ReturnType<typeof eyeColumns>, name: string) => [
  ...(result.columns[result.names.indexOf(name)] ?? []),
];

describe('facts of the eye as columns', () => {
  it('sets each level with five cases against the commonest and pools the rest', () => {
    const result = eyeColumns(
      holders(
        [12, { nucleus: 'medium' }],
        [6, { nucleus: 'hard' }],
        [3, { nucleus: 'white' }],
        [2, { nucleus: 'soft' }],
      ),
      eyes,
    );
    expect(result.names).toEqual(['nucleus=hard/medium', 'nucleus=*/medium']);
    expect(column(result, 'nucleus=hard/medium').filter((value) => value === 1)).toHaveLength(6);
    expect(column(result, 'nucleus=*/medium').filter((value) => value === 1)).toHaveLength(5);
    expect(result.centre).toEqual([0, 0]);
    expect(result.caveats).toEqual([]);
  });

  it('leaves fewer than five differing cases with the commonest, and says so', () => {
    const result = eyeColumns(
      holders([20, { nucleus: 'medium', toric: false }], [4, { nucleus: 'hard', toric: true }]),
      eyes,
    );
    expect(result.names).toEqual([]);
    expect(result.caveats).toEqual([
      { code: 'few-differ', fact: 'Nucleus', differ: 4, of: 24 },
      { code: 'few-differ', fact: 'Toric', differ: 4, of: 24 },
    ]);
    const rare = eyeColumns(
      holders([20, { nucleus: 'medium' }], [6, { nucleus: 'hard' }], [2, { nucleus: 'soft' }]),
      eyes,
    );
    expect(rare.names).toEqual(['nucleus=hard/medium']);
    expect(rare.caveats).toEqual([{ code: 'rare-levels', fact: 'Nucleus', rare: 2, of: 28 }]);
  });

  it('centres yes/no at the commoner answer and numbers at the median', () => {
    const result = eyeColumns(
      holders(
        [12, { toric: true, 'axial-length': 23 }],
        [6, { toric: false, 'axial-length': 25 }],
        [1, { toric: 'no', 'axial-length': 30 }],
      ),
      eyes,
    );
    expect(result.names).toEqual(['toric', 'axial-length']);
    expect(result.centre).toEqual([1, 23]);
    expect(column(result, 'toric').slice(11, 14)).toEqual([0, -1, -1]);
    expect(column(result, 'axial-length').slice(17)).toEqual([2, 7]);
  });

  it('fills a missing fact with the typical case and gives "not entered" a column from five on', () => {
    const five = eyeColumns(holders([10, { toric: false }], [6, { toric: true }], [5, {}]), eyes);
    expect(five.names).toEqual(['toric', 'toric not entered']);
    expect(column(five, 'toric').slice(16)).toEqual([0, 0, 0, 0, 0]);
    expect(column(five, 'toric not entered').slice(15)).toEqual([0, 1, 1, 1, 1, 1]);
    const four = eyeColumns(
      holders([10, { toric: false }], [6, { toric: true }], [4, { 'axial-length': 'unknown' }]),
      eyes,
    );
    expect(four.names).toEqual(['toric']);
  });

  it('leaves out a fact missing in more than two fifths, a constant one and a copy, each with its reason', () => {
    const missing = eyeColumns(holders([6, { toric: true }], [5, { toric: false }], [8, {}]), eyes);
    expect(missing.names).toEqual([]);
    expect(missing.caveats).toEqual([{ code: 'few-entered', fact: 'Toric', entered: 11, of: 19 }]);
    expect(eyeColumns(holders([12, { toric: true }]), eyes).caveats).toEqual([{ code: 'all-the-same', fact: 'Toric' }]);
    const copy = eyeColumns(
      holders([10, { nucleus: 'medium', toric: false }], [10, { nucleus: 'hard', toric: true }]),
      eyes,
    );
    expect(copy.names).toEqual(['nucleus=hard/medium']);
    expect(copy.caveats).toEqual([{ code: 'tied', fact: 'Toric' }]);
  });

  it('takes facts in the order of the procedure up to the first that does not fit', () => {
    const many = holders(
      [8, { nucleus: 'medium', toric: false, 'axial-length': 22 }],
      [8, { nucleus: 'hard', toric: true, 'axial-length': 23 }],
      [8, { nucleus: 'white', toric: false, 'axial-length': 24 }],
    );
    expect(eyeColumns(many, eyes, { maxColumns: 2 }).names).toEqual(['nucleus=hard/medium', 'nucleus=white/medium']);
    const one = eyeColumns(many, eyes, { maxColumns: 1 });
    expect(one.names).toEqual([]);
    expect(one.caveats).toEqual([{ code: 'too-few-from', fact: 'Nucleus' }]);
  });

  it('codes later cases by names fixed earlier: a level first seen later joins "other"', () => {
    const fixed = ['nucleus=hard/medium', 'nucleus=*/medium', 'axial-length', 'toric not entered'];
    const later = holders(
      [1, { nucleus: 'hard' }],
      [1, { nucleus: 'medium' }],
      [1, { nucleus: 'soft', toric: true }],
      [1, { nucleus: 'odd', 'axial-length': 26 }],
    );
    const result = eyeColumns(later, eyes, { columns: fixed, centre: [0, 0, 23.5, 0] });
    expect(result.names).toEqual(fixed);
    expect(result.columns.map((values) => [...values])).toEqual([
      [1, 0, 0, 0],
      [0, 0, 1, 1],
      [0, 0, 0, 2.5],
      [1, 1, 0, 1],
    ]);
  });

  it('keeps a fixed column whose fact the procedure has lost as nothing, and says so', () => {
    const result = eyeColumns(holders([3, { nucleus: 'hard' }]), eyes, { columns: ['gone=x/y'] });
    expect(result.columns.map((values) => [...values])).toEqual([[0, 0, 0]]);
    expect(result.caveats).toEqual([{ code: 'retired', fact: 'gone=x/y' }]);
  });

  it('gives nothing for no cases and no facts', () => {
    expect(eyeColumns([], eyes)).toEqual({ names: [], columns: [], centre: [], caveats: [] });
    expect(eyeColumns(holders([30, {}]), eyes)).toEqual({ names: [], columns: [], centre: [], caveats: [] });
  });
});
