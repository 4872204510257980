import { describe, it } from 'vitest';
import { cusumAverageRunLength, ewmaAverageRunLength } from './comparison/average-run-length';
import { checkValue } from './check-values';
import { expectClose, expectRelative } from './close';

describe('average run lengths', () => {
  it('EWMA with limits at 3 (SAS/QC manual, Example 9.5, after Crowder 1987)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { L: number; weights: number[]; shifts: number[] },
      { arl_rows_weights: number[][] },
      { arl_rows_weights: number[][] }
    >('ewma-arl-l3');
    // One row a weight of the newest value, one column a shift.
    input.weights.forEach((lambda, row) => {
      const got = input.shifts.map((shift) => ewmaAverageRunLength({ lambda, limit: input.L, shift }));
      expectRelative(got, expected.arl_rows_weights[row]!, tolerance.expected_rel!);
      expectRelative(got, published.arl_rows_weights[row]!, tolerance.published_rel!);
    });
  });

  it('EWMA designs with 500 in control (Lucas and Saccucci, Technometrics 1990;32:1, Table 3) (from memory)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { pairs: [number, number][]; shifts: number[] },
      { arl0_each_pair: number[]; arl_rows_first_five_pairs: number[][] },
      { arl0: number; arl_rows_first_five_pairs: number[][] }
    >('ewma-arl-500-design');
    input.pairs.forEach(([lambda, limit], i) => {
      const inControl = ewmaAverageRunLength({ lambda, limit });
      expectRelative(inControl, expected.arl0_each_pair[i]!, tolerance.expected_rel!);
      expectClose(inControl, published.arl0, 1);
    });
    expected.arl_rows_first_five_pairs.forEach((row, i) => {
      const [lambda, limit] = input.pairs[i]!;
      const got = input.shifts.map((shift) => ewmaAverageRunLength({ lambda, limit, shift }));
      expectRelative(got, row, tolerance.expected_rel!);
      // Printed to three figures, the small ones to one decimal; 48.2 for 48.29 is the table's own.
      got.forEach((value, j) => {
        const printed = published.arl_rows_first_five_pairs[i]![j]!;
        expectClose(value, printed, printed < 100 ? 0.1 : 0.6);
      });
    });
  });

  it('two-sided CUSUM (Montgomery and Runger, Table 16-9)', () => {
    type Rows = { h4: number[]; h5: number[] };
    const { input, expected, published, tolerance } = checkValue<
      { k: number; h: [number, number]; shifts: number[] },
      Rows,
      Rows
    >('cusum-arl-two-sided');
    input.h.forEach((h) => {
      const row = h === 4 ? 'h4' : 'h5';
      const got = input.shifts.map((shift) => cusumAverageRunLength({ k: input.k, h, shift }));
      expectRelative(got, expected[row], tolerance.expected_rel!);
      expectRelative(got, published[row], tolerance.published_rel!);
    });
  });

  it('one-sided CUSUM (NIST/SEMATECH e-Handbook 6.3.2.3.1: 336, 930; 8.38, 10.4)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { k: number; h: number[] },
      { arl0_one_sided: number[]; arl1_one_sided_shift1: number[] },
      { arl0_one_sided: number[]; arl1_shift1: number[] }
    >('cusum-arl-one-sided-and-siegmund');
    const at = (shift: number) => input.h.map((h) => cusumAverageRunLength({ k: input.k, h, shift, sides: 1 }));
    expectRelative(at(0), expected.arl0_one_sided, tolerance.expected_rel!);
    expectRelative(at(1), expected.arl1_one_sided_shift1, tolerance.expected_rel!);
    expectRelative(at(0), published.arl0_one_sided, tolerance.published_rel!);
    expectRelative(at(1), published.arl1_shift1, tolerance.published_rel!);
  });
});
