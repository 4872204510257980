import fc from 'fast-check';
import { Matrix, QrDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { huberRegression, type HuberFit } from '../../../src/lib/statistics';
import { medianInPlace } from '../../../src/lib/statistics/select';
import { leastSquares } from '../../published/comparison/least-squares';
import { inventedCases } from './invented-data';

function fitOf(columns: readonly Float64Array[], y: Float64Array, tolerance = 1e-8, maxSteps = 50): HuberFit {
  const fit = huberRegression(columns, y, { tolerance, maxSteps });
  if (fit.kind !== 'fit') throw new Error(`no fit: ${fit.because}`);
  return fit;
}

/** The same estimate by another road: QR of the weighted rows in every step, no centring, no Cholesky. */
function byQr(columns: readonly Float64Array[], y: Float64Array, steps: number): number[] {
  const n = y.length;
  const rows = Array.from({ length: n }, (_, i) => [1, ...columns.map((column) => column[i]!)]);
  let weights = new Array<number>(n).fill(1);
  let beta: number[] = [];
  for (let step = 0; step <= steps; step++) {
    const roots = weights.map(Math.sqrt);
    const weighted = new Matrix(rows.map((row, i) => row.map((value) => value * roots[i]!)));
    const against = Matrix.columnVector(Array.from(y, (value, i) => value * roots[i]!));
    beta = new QrDecomposition(weighted).solve(against).to1DArray();
    const residuals = rows.map((row, i) => y[i]! - row.reduce((sum, value, j) => sum + value * beta[j]!, 0));
    const scale = medianInPlace(Float64Array.from(residuals, Math.abs)) / 0.6745;
    weights = residuals.map((r) => Math.min(1, (1.345 * scale) / Math.abs(r)));
  }
  return beta;
}

const scaleOf = (column: Float64Array) => Math.sqrt(column.reduce((sum, v) => sum + v * v, 0) / column.length);

describe('Huber regression against QR in every step (ml-matrix)', () => {
  it.each([
    [60, 1],
    [60, 6],
    [100, 11],
    [400, 15],
  ])('%i cases, %i columns: coefficients agree to 1e-8', (n, p) => {
    const { columns, y } = inventedCases(31, n, p);
    const fit = fitOf(columns, y, 1e-12, 200);
    const oracle = byQr(columns, y, 200);
    // In the unit of y per SD of the column; the intercept of columns like a year is far outside the data.
    columns.forEach((column, j) =>
      expect(Math.abs(fit.coefficients[j + 1]! - oracle[j + 1]!) * scaleOf(column)).toBeLessThan(1e-8),
    );
    const fitted = y.map((_, i) => columns.reduce((sum, column, j) => sum + oracle[j + 1]! * column[i]!, oracle[0]!));
    fitted.forEach((value, i) => expect(Math.abs(value - fit.fitted[i]!)).toBeLessThan(1e-8));
    expect(fit.converged).toBe(true);
  });

  it('the usual fifty steps to 1e-8 leave less than a millionth of the scale', () => {
    const { columns, y } = inventedCases(32, 100, 8);
    const usual = fitOf(columns, y);
    const oracle = byQr(columns, y, 300);
    y.forEach((_, i) => {
      const value = columns.reduce((sum, column, j) => sum + oracle[j + 1]! * column[i]!, oracle[0]!);
      expect(Math.abs(value - usual.fitted[i]!)).toBeLessThan(1e-6 * usual.scale);
    });
  });

  it('uses the columns a pivot-free QR finds independent, the later of two that say the same left out', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: 2, max: 6 }), fc.nat(8), (seed, p, copies) => {
        const { columns } = inventedCases(seed, 40, p);
        const more = columns.slice();
        // Put in constants, copies and sums at random places, never first.
        for (let c = 0; c < copies; c++) {
          const a = more[c % more.length]!;
          const b = more[(c * 3 + 1) % more.length]!;
          const extra =
            c % 3 === 0 ? a.map(() => 5) : c % 3 === 1 ? a.map((v) => 2 * v - 7) : a.map((v, i) => v + b[i]!);
          more.splice(1 + ((seed + c) % more.length), 0, extra);
        }
        const { y } = inventedCases(seed + 1, 40, 1);
        const fit = huberRegression(more, y);
        if (fit.kind !== 'fit') throw new Error('no fit');
        expect(fit.kept).toEqual(independentByQr(more));
        expect(fit.p).toBe(fit.kept.length + 1);
        fit.coefficients.forEach((value, j) => {
          if (j === 0 || fit.kept.includes(j - 1)) expect(Number.isFinite(value)).toBe(true);
          else expect([value, fit.se[j]]).toEqual([0, NaN]);
        });
      }),
      { numRuns: 60, seed: 1 },
    );
  });
});

/** Column by column: does it add to the rank of those kept so far and the intercept? */
function independentByQr(columns: readonly Float64Array[]): number[] {
  const kept: number[] = [];
  columns.forEach((column, index) => {
    const n = column.length;
    const tried = [...kept.map((k) => columns[k]!), column].map((one) => {
      const centre = one.reduce((sum, v) => sum + v, 0) / n;
      const centred = Array.from(one, (v) => v - centre);
      const size = Math.hypot(...centred);
      return centred.map((v) => (size > 1e-9 * n ? v / size : 0));
    });
    const r = new QrDecomposition(new Matrix(tried).transpose()).upperTriangularMatrix;
    if (Math.abs(r.get(tried.length - 1, tried.length - 1)) > 1e-5) kept.push(index);
  });
  return kept;
}

describe('Huber regression: properties', () => {
  const seeds = fc.integer({ min: 1, max: 1e6 });

  it('moves with y: adding a constant or a multiple of a column, stretching by a factor', () => {
    fc.assert(
      fc.property(seeds, fc.double({ min: 0.1, max: 50, noNaN: true }), (seed, by) => {
        const { columns, y } = inventedCases(seed, 50, 3);
        const plain = fitOf(columns, y);
        const moved = fitOf(
          columns,
          y.map((v, i) => by * v + 3 - 0.5 * columns[0]![i]!),
        );
        const close = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThan(1e-6 * by * (1 + Math.abs(b)));
        close(moved.scale, by * plain.scale);
        close(moved.coefficients[1]!, by * plain.coefficients[1]! - 0.5);
        close(moved.coefficients[2]!, by * plain.coefficients[2]!);
        close(moved.se[1]!, by * plain.se[1]!);
        expect(moved.m).toBeCloseTo(plain.m, 10);
      }),
      { numRuns: 40, seed: 2 },
    );
  });

  it('does not care for the unit or origin of a column, nor for the order of cases', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { columns, y } = inventedCases(seed, 45, 3);
        const plain = fitOf(columns, y);
        const [first, ...others] = columns;
        const other = fitOf([first!.map((v) => 10 * v - 4), ...others], y);
        expect(other.coefficients[1]! * 10).toBeCloseTo(plain.coefficients[1]!, 8);
        expect(other.se[1]! * 10).toBeCloseTo(plain.se[1]!, 8);
        const backwards = fitOf(
          columns.map((column) => column.slice().reverse()),
          y.slice().reverse(),
        );
        backwards.coefficients.forEach((value, j) => expect(value).toBeCloseTo(plain.coefficients[j]!, 6));
      }),
      { numRuns: 40, seed: 3 },
    );
  });

  it('leaves what it is given alone and gives fitted + residual = y', () => {
    const { columns, y } = inventedCases(33, 60, 4);
    const before = [...columns, y].map((row) => Array.from(row));
    const fit = fitOf(columns, y);
    expect([...columns, y].map((row) => Array.from(row))).toEqual(before);
    y.forEach((value, i) => expect(fit.fitted[i]! + fit.residuals[i]!).toBeCloseTo(value, 12));
    fit.weights.forEach((weight, i) => {
      const size = Math.abs(fit.residuals[i]!);
      expect(weight).toBeCloseTo(Math.min(1, (1.345 * fit.scale) / size), 9);
    });
  });

  it('is hardly moved by one absurd case, where least squares is', () => {
    const { columns, y } = inventedCases(34, 60, 2);
    const spoilt = y.slice();
    spoilt[7] = 400;
    const shift = Math.abs(fitOf(columns, spoilt).coefficients[2]! - fitOf(columns, y).coefficients[2]!);
    expect(shift).toBeLessThan(0.1);
    const plain = [y, spoilt].map((row) => leastSquares(columns, row));
    expect(plain.map((fit) => fit.kind)).toEqual(['fit', 'fit']);
    const slopes = plain.map((fit) => (fit.kind === 'fit' ? fit.coefficients[2]! : NaN));
    expect(Math.abs(slopes[1]! - slopes[0]!)).toBeGreaterThan(1);
  });

  it('standard errors are those seen over many records (normal data, 400 records of 40)', () => {
    const slopes: number[] = [];
    let said = 0;
    for (let record = 0; record < 400; record++) {
      const { columns, y } = inventedCases(1000 + record, 40, 2);
      const fit = fitOf(columns, y);
      slopes.push(fit.coefficients[2]!);
      said += fit.se[2]! ** 2 / 400;
    }
    const centre = slopes.reduce((sum, v) => sum + v, 0) / 400;
    const seen = Math.sqrt(slopes.reduce((sum, v) => sum + (v - centre) ** 2, 0) / 399);
    expect(Math.sqrt(said) / seen).toBeGreaterThan(0.88);
    expect(Math.sqrt(said) / seen).toBeLessThan(1.12);
  });
});

describe('Huber regression: data that cannot be fitted', () => {
  const row = (...values: number[]) => Float64Array.from(values);

  it('returns why, never NaN', () => {
    expect(huberRegression([], row())).toEqual({ kind: 'cannot', because: 'too-few' });
    expect(huberRegression([], row(3))).toEqual({ kind: 'cannot', because: 'too-few' });
    expect(huberRegression([row(1, 2, 4)], row(1, 2, 9)).kind).toBe('fit');
    expect(huberRegression([row(1, 2)], row(1, 2))).toEqual({ kind: 'cannot', because: 'too-few' });
    expect(huberRegression([], row(5, 5, 5, 5))).toEqual({ kind: 'cannot', because: 'no-variation' });
    expect(huberRegression([row(1, 2, 3, 4)], row(0.1, 0.2, 0.3, 0.4))).toEqual({
      kind: 'cannot',
      because: 'no-variation',
    });
    expect(huberRegression([], row(1, NaN, 3))).toEqual({ kind: 'cannot', because: 'not-a-number' });
    expect(huberRegression([row(1, Infinity, 3)], row(1, 2, 3))).toEqual({ kind: 'cannot', because: 'not-a-number' });
    expect(leastSquares([row(1, 2)], row(1, 2))).toEqual({ kind: 'cannot', because: 'too-few' });
    expect(leastSquares([], row(NaN))).toEqual({ kind: 'cannot', because: 'not-a-number' });
  });

  it('times rounded to whole seconds: more than half alike, the spread of the rest is used', () => {
    const fit = huberRegression([], Float64Array.from([6, 6, 6, 6, 6, 6, 7, 5, 6, 8]));
    if (fit.kind !== 'fit') throw new Error('no fit');
    expect(fit.scale).toBeGreaterThan(0);
    expect(fit.coefficients[0]).toBeGreaterThan(5.9);
    expect(fit.coefficients[0]).toBeLessThan(6.3);
    expect(fit.se.every(Number.isFinite)).toBe(true);
  });

  it('any rows of numbers: a fit of finite numbers or a reason', () => {
    const whole = fc.array(fc.integer({ min: -5, max: 5 }), { minLength: 12, maxLength: 12 });
    fc.assert(
      fc.property(fc.array(whole, { maxLength: 4 }), whole, (columns, y) => {
        const fit = huberRegression(
          columns.map((c) => Float64Array.from(c)),
          Float64Array.from(y),
        );
        if (fit.kind === 'cannot') return;
        const used = [0, ...fit.kept.map((k) => k + 1)];
        for (const j of used) expect([fit.coefficients[j], fit.se[j]].every(Number.isFinite)).toBe(true);
        for (const i of used) for (const j of used) expect(Number.isFinite(fit.covariance[i]![j])).toBe(true);
        expect(fit.fitted.every(Number.isFinite)).toBe(true);
        expect(fit.scale).toBeGreaterThan(0);
      }),
      { numRuns: 300, seed: 4 },
    );
  });

  it('throws on rows of different length: a wrong call', () => {
    expect(() => huberRegression([row(1, 2)], row(1, 2, 3))).toThrow('rows of one length');
    expect(() => leastSquares([row(1, 2)], row(1, 2, 3))).toThrow('rows of one length');
  });
});
