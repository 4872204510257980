import { describe, expect, it } from 'vitest';
import { allowingForSelection, type SelectionAllowanceInput } from '../../../src/lib/practice/selection-allowance';
import { atOnce } from '../../../src/lib/turns';

const selectionAllowance = (input: SelectionAllowanceInput) => atOnce(allowingForSelection(input));
import { practiceThresholds } from '../../../src/lib/practice/thresholds';

/*
 * Six lists of four cases, three steps, by formula. Python with numpy 2.4 went through all 6⁵ = 7,776 resamples of five
 * of six lists (each view's choice by its own value; np.quantile(…, method='median_unbiased') is type 8; Huber location
 * with the MAD fixed about the median, k 1.345): the mean rise of the chosen step's level was, before the factor,
 */
const enumerated = { reference: 0.03052534483663119 / 1.5, seconds: 0, spread: 0.034194710783631614 / 1.5 };

const cases = Array.from({ length: 24 }, (_, i) => i);
const list = Int32Array.from(cases, (i) => Math.floor(i / 4));
const adjusted = [0, 0.03, -0.02].map((level, j) =>
  Float64Array.from(
    cases,
    (i) => Math.log(60) + level + 0.25 * Math.sin(1.9 * i + 1.3 * j * j + 0.4 * j) + 0.1 * Math.sin(2.3 * list[i]! + j),
  ),
);
const differences = adjusted.map((row, j) =>
  row.map((value, i) => value - [0, 1, 2].filter((k) => k !== j).reduce((sum, k) => sum + adjusted[k]![i]! / 2, 0)),
);
const asked = {
  adjusted,
  recorded: adjusted,
  differences,
  candidates: [0, 1, 2],
  referenceMedians: new Float64Array(3).fill(60),
  list,
  seed: 11,
};

describe('the allowance for having picked the step', () => {
  it.each(['reference', 'seconds', 'spread'] as const)(
    '%s: seeded resamples come near the whole enumeration',
    (view) => {
      const expected = practiceThresholds.selectionAllowanceFactor * enumerated[view];
      // SD of one resample's rise is about 0.05, so the mean of 4,000 has a standard error near 0.001.
      expect(Math.abs(selectionAllowance({ ...asked, view, resamples: 4000 }).time - expected)).toBeLessThan(0.006);
    },
  );

  it('is the same for one seed, never below 0, and nothing where there was no choice', () => {
    expect(selectionAllowance({ ...asked, view: 'reference' })).toEqual(
      selectionAllowance({ ...asked, view: 'reference' }),
    );
    const only = selectionAllowance({ ...asked, view: 'reference', candidates: [1], resamples: 4000 });
    expect(only.time).toBeGreaterThanOrEqual(0);
    expect(only.time).toBeLessThan(0.006);
  });

  it('does not depend on the unit of time', () => {
    const minutes = adjusted.map((row) => row.map((value) => value - Math.log(60)));
    const inMinutes = selectionAllowance({
      ...asked,
      adjusted: minutes,
      referenceMedians: new Float64Array(3).fill(1),
      view: 'reference',
    });
    expect(inMinutes.time).toBeCloseTo(selectionAllowance({ ...asked, view: 'reference' }).time, 9);
  });

  it('is nothing where no step has a reference, or no case has a rest', () => {
    expect(
      selectionAllowance({ ...asked, view: 'reference', referenceMedians: new Float64Array(3).fill(NaN) }),
    ).toEqual({
      time: 0,
      spread: 0,
    });
    expect(
      selectionAllowance({ ...asked, view: 'seconds', differences: differences.map((row) => row.map(() => NaN)) }),
    ).toEqual({ time: 0, spread: 0 });
  });

  it('resamples single cases below six lists', () => {
    const five = { ...asked, view: 'reference' as const, list: list.map((each) => Math.min(each, 4)) };
    const singles = { ...asked, view: 'reference' as const, list: Int32Array.from(cases) };
    expect(selectionAllowance(five)).toEqual(selectionAllowance(singles));
  });
});
