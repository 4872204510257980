import { describe, expect, it } from 'vitest';
import { adjustForEye, stepTable } from '../../../src/lib/audit';
import { drawInto } from '../../../src/lib/statistics';
import { refitted } from '../../../src/lib/audit/refit';
import { huberRegression, median, randomStream, sampleSd } from '../../../src/lib/statistics';
import { case_, fact, length, procedure, step } from '../../made-up/cases';
import { recordOf, stepIds, type World } from '../../bench/simulated-record';

const nucleus = fact('nucleus', 'choice', ['soft', 'medium', 'hard']);
const axial = fact('axial-length', 'number');
const eyes = procedure(
  stepIds(4).map((id) => step(id)),
  [nucleus, axial],
);

/** Hard nuclei take 1.5 times as long at s1; each millimetre adds 5 % at s2. */
const hardEyes = (cases: number): World => ({
  cases,
  usual: [60, 60, 60, 60],
  outliers: 0.05,
  eye: (stream) => {
    const hard = stream.uniform() < 0.35;
    const length = 23.5 + stream.normal();
    return {
      facts: { nucleus: hard ? 'hard' : 'medium', 'axial-length': length },
      effect: (place) => (place === 0 && hard ? Math.log(1.5) : place === 1 ? 0.05 * (length - 23.5) : 0),
    };
  },
});

const tableOf = (cases: number, seed = 1) => stepTable(recordOf(hardEyes(cases), seed), eyes, []);

describe('adjusted for the eye', () => {
  it('takes the fact of the eye out and leaves the typical eye as it is', () => {
    const table = tableOf(400);
    const { adjusted, fits } = adjustForEye(table);
    const ratio = (values: Float64Array) => {
      const of = (level: string) => values.filter((_, place) => table.cases[place]?.facts['nucleus'] === level);
      return median(of('hard')) / median(of('medium'));
    };
    expect(ratio(table.seconds[0]!)).toBeGreaterThan(1.35);
    expect(Math.abs(ratio(adjusted[0]!) - 1)).toBeLessThan(0.07);
    expect(Math.exp(fits[0]!.coefficients[0]!)).toBeCloseTo(1.5, 0);
    expect(fits[1]!.coefficients[1]).toBeCloseTo(0.05, 1);
    const typical = table.cases.findIndex(({ facts }) => facts['nucleus'] === 'medium');
    const length = table.cases[typical]!.facts['axial-length'] as number;
    const back = Math.exp((length - adjustForEye(table).eye.centre[1]!) * fits[0]!.coefficients[1]!);
    expect((adjusted[0]![typical]! * back) / fits[0]!.factor).toBeCloseTo(table.seconds[0]![typical]!, 8);
  });

  it('leaves the median of each step as recorded', () => {
    const table = tableOf(60);
    adjustForEye(table).adjusted.forEach((row, step) =>
      expect(median([...row])).toBeCloseTo(median([...table.seconds[step]!]), 9),
    );
  });

  it('scales with the times: twice as long everywhere is twice as long adjusted', () => {
    const table = tableOf(60);
    const doubled = { ...table, seconds: table.seconds.map((row) => row.map((value) => 2 * value)) };
    const [one, two] = [adjustForEye(table).adjusted, adjustForEye(doubled).adjusted];
    one.forEach((row, place) => row.forEach((value, i) => expect(two[place]![i]! / value).toBeCloseTo(2, 6)));
  });

  it('uses fewer columns with fewer than 15 + 3p cases, down to none, and says so', () => {
    expect(adjustForEye(tableOf(40)).fits[0]?.used).toHaveLength(2);
    const twenty = adjustForEye(tableOf(20));
    expect(twenty.fits[0]?.used).toEqual([0]);
    expect(twenty.caveats).toContainEqual({ code: 'adjusted-for-less', step: 'S1', nothing: false, cases: 20 });
    const twelve = adjustForEye(tableOf(12));
    expect(twelve.fits.every((fit) => fit === null)).toBe(true);
    expect([...twelve.adjusted[0]!]).toEqual([...tableOf(12).seconds[0]!]);
  });

  it('leaves constant times, absent steps and an empty table as they are', () => {
    const same = Array.from({ length: 30 }, (_, place) =>
      case_(place + 1, [length('s1', 60), length('s2', 30)], { facts: { nucleus: place % 2 ? 'hard' : 'medium' } }),
    );
    const result = adjustForEye(stepTable(same, eyes, []));
    expect([...result.adjusted[0]!]).toEqual(Array.from({ length: 30 }, () => 60));
    expect(result.caveats).toContainEqual({ code: 'not-adjusted', step: 'S1', why: 'no-variation' });
    expect(result.adjusted[3]!.every(Number.isNaN)).toBe(true);
    expect(adjustForEye(stepTable([], eyes, [])).adjusted.map((row) => row.length)).toEqual([0, 0, 0, 0]);
  });
});

describe('the adjustment refitted inside a resample', () => {
  it('by one step comes close to fitting anew', () => {
    const table = tableOf(60, 3);
    const fit = adjustForEye(table).fits[0]!;
    const counts = new Int32Array(table.listCount);
    const [oneStep, anew]: [number[], number[]] = [[], []];
    for (let draw = 0; draw < 300; draw += 1) {
      drawInto(counts, randomStream(9, draw));
      const times = fit.present.map((place) => counts[table.list[place]!]!);
      const places = [...times].flatMap((count, i) => Array.from({ length: count }, () => i));
      const full = huberRegression(
        fit.design.map((column) => Float64Array.from(places, (i) => column[i]!)),
        Float64Array.from(places, (i) => fit.log[i]!),
      );
      if (full.kind === 'cannot') continue;
      oneStep.push(refitted(fit, times)[0]!);
      anew.push(full.coefficients[1]!);
    }
    expect(anew.length).toBe(300);
    const apart = oneStep.map((value, i) => value - anew[i]!);
    expect(sampleSd(apart)).toBeLessThan(0.2 * sampleSd(anew));
    expect(Math.abs(median(apart))).toBeLessThan(0.05 * sampleSd(anew));
    expect(Math.abs(sampleSd(oneStep) / sampleSd(anew) - 1)).toBeLessThan(0.12);
  });

  it('is the full fit where every case is drawn once, and keeps a coefficient the resample knows nothing about', () => {
    const table = tableOf(60, 3);
    const fit = adjustForEye(table).fits[0]!;
    const once = refitted(fit, new Int32Array(fit.present.length).fill(1));
    fit.coefficients.forEach((value, place) => expect(once[place]).toBeCloseTo(value, 6));
    const onlyMedium = Int32Array.from(fit.design[0]!, (value) => (value === 0 ? 1 : 0));
    expect(refitted(fit, onlyMedium)[0]).toBe(fit.coefficients[0]);
  });
});
