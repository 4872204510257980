import { describe, expect, it } from 'vitest';
import { ColumnBasis } from '../../../src/lib/audit/column-basis';
import { huberRegression, randomStream } from '../../../src/lib/statistics';

describe('columns with something of their own', () => {
  it('are taken; constants, copies and combinations are not', () => {
    const basis = new ColumnBasis();
    const stream = randomStream(3);
    const a = Float64Array.from({ length: 30 }, () => stream.normal());
    const b = Float64Array.from({ length: 30 }, () => 1000 + stream.uniform());
    expect(basis.take(a)).toBe(true);
    expect(basis.take(new Float64Array(30).fill(23.4))).toBe(false);
    expect(basis.take(b)).toBe(true);
    expect(basis.take(a.map((value, i) => 3 - 2 * value + b[i]!))).toBe(false);
    expect(basis.take(a.map((value) => value * value))).toBe(true);
    expect(basis.take(new Float64Array(0))).toBe(false);
  });

  it('are those the regression keeps', () => {
    const stream = randomStream(4);
    for (let run = 0; run < 50; run += 1) {
      const columns = Array.from({ length: 6 }, () =>
        Float64Array.from({ length: 25 }, () => (stream.uniform() < 0.3 ? 1 : 0)),
      );
      columns.splice(
        3,
        0,
        columns[0]!.map((value, i) => value + (columns[1]![i] ?? 0)),
      );
      const basis = new ColumnBasis();
      const taken = columns.flatMap((column, place) => (basis.take(column) ? [place] : []));
      const fit = huberRegression(
        columns,
        Float64Array.from({ length: 25 }, () => stream.normal()),
      );
      expect(fit.kind === 'fit' && fit.kept).toEqual(taken);
    }
  });
});
