import { describe, expect, it } from 'vitest';
import { clopperPearson, zeroEventsUpper } from '../../src/lib/statistics';
import { checkValue } from './check-values';
import { expectClose } from './close';
import { wilsonInterval } from './comparison/wilson-interval';

type Cases = { k_n: [number, number][] };
type Intervals = { ci: [number, number][] };

describe('Wilson score interval', () => {
  it('Newcombe 1998 (Stat. Med. 17:857), Table I, method 3', () => {
    const { input, expected, published, tolerance } = checkValue<Cases, Intervals, Intervals>(
      'proportion-newcombe-wilson',
    );
    input.k_n.forEach(([k, n], i) => {
      const { low, high } = wilsonInterval(k, n);
      expectClose([low, high], expected.ci[i]!, tolerance.expected_abs!);
      expectClose([low, high], published.ci[i]!, tolerance.published_abs!);
    });
    // No events: the lower end is 0, not the -1e-17 of the arithmetic.
    expect(wilsonInterval(0, 20).low).toBe(0);
  });

  it('one-sided bound for 26 of 200 (NIST/SEMATECH e-Handbook 7.2.4.1: 0.09577)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { k: number; n: number; one_sided_level: number },
      { lower: number },
      { lower: number }
    >('wilson-one-sided-nist-7241');
    const { low } = wilsonInterval(input.k, input.n, 2 * input.one_sided_level - 1);
    expectClose(low, expected.lower, tolerance.expected_abs!);
    expectClose(low, published.lower, tolerance.published_abs!);
  });
});

describe('Clopper–Pearson interval', () => {
  it('Newcombe 1998 (Stat. Med. 17:857), Table I, method 5', () => {
    const { input, expected, published, tolerance } = checkValue<Cases, Intervals, Intervals>(
      'proportion-newcombe-clopper-pearson',
    );
    input.k_n.forEach(([k, n], i) => {
      const { low, high } = clopperPearson(k, n);
      expectClose([low, high], expected.ci[i]!, tolerance.expected_abs!);
      expectClose([low, high], published.ci[i]!, tolerance.published_abs!);
    });
  });

  it('4 of 20 at 90 % (NIST/SEMATECH e-Handbook 7.2.4.1: 0.071354 to 0.401029)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { k: number; n: number; level: number },
      { ci: [number, number] },
      { pl: number; pu: number }
    >('clopper-pearson-nist-7241');
    const { low, high } = clopperPearson(input.k, input.n, input.level);
    expectClose([low, high], expected.ci, tolerance.expected_abs!);
    // The handbook's last digit of 0.401029 comes from its root finder.
    expectClose([low, high], [published.pl, published.pu], tolerance.published_abs!);
  });

  it("Mendel's 682 of 925 (Conover 1971, p. 97; R ?binom.test) (from memory)", () => {
    const { input, expected, published, tolerance } = checkValue<
      { k: number; n: number },
      { ci95: [number, number]; estimate: number },
      { ci95: [number, number] }
    >('clopper-pearson-mendel');
    const { low, high } = clopperPearson(input.k, input.n);
    expectClose([low, high], expected.ci95, tolerance.abs!);
    expectClose([low, high], published.ci95, tolerance.published_abs!);
  });
});

describe('no events', () => {
  it('exact form of the rule of three (Hanley and Lippman-Hand, JAMA 1983;249:1743)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { n: number[] },
      { rule: number[]; exact_upper_95_one_sided: number[]; two_sided_cp_upper: number[]; limit_n_times_upper: number },
      { n14: number }
    >('rule-of-three');
    expectClose(
      input.n.map((n) => zeroEventsUpper(n)),
      expected.exact_upper_95_one_sided,
      tolerance.abs!,
    );
    // 3/n is one-sided: the two-sided exact interval reaches further, to about 3.7/n.
    expectClose(
      input.n.map((n) => clopperPearson(0, n).high),
      expected.two_sided_cp_upper,
      tolerance.abs!,
    );
    expectClose(1e9 * zeroEventsUpper(1e9), expected.limit_n_times_upper, 1e-8);
    expectClose(3 / 14, published.n14, tolerance.abs!);
    // The rule itself is only close from about thirty cases on.
    input.n.forEach((n, i) => {
      if (n >= 30) expectClose(zeroEventsUpper(n) / expected.rule[i]!, 1, 0.05);
    });
  });
});
