import { describe, expect, it } from 'vitest';
import { designMatrix, huberRegression, randomStream } from '../../../src/lib/statistics';

describe('columns with something of their own', () => {
  it('are taken; constants, copies and combinations are not', () => {
    const stream = randomStream(3);
    const a = Float64Array.from({ length: 30 }, () => stream.normal());
    const b = Float64Array.from({ length: 30 }, () => 1000 + stream.uniform());
    const constant = new Float64Array(30).fill(23.4);
    const both = a.map((value, i) => 3 - 2 * value + b[i]!);
    const squares = a.map((value) => value * value);
    expect(designMatrix([a, constant, b, both, squares], 30).kept).toEqual([0, 2, 4]);
    expect(designMatrix([new Float64Array(0)], 0).kept).toEqual([]);
  });

  it('stay taken when more columns are asked about: of two that say the same the later is left out', () => {
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
      const taken: number[] = [];
      columns.forEach((column, place) => {
        const { kept } = designMatrix([...taken.map((at) => columns[at]!), column], 25);
        if (kept.includes(taken.length)) taken.push(place);
      });
      const fit = huberRegression(
        columns,
        Float64Array.from({ length: 25 }, () => stream.normal()),
      );
      expect(fit.kind === 'fit' && fit.kept).toEqual(taken);
    }
  });
});
