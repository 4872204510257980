import { describe, expect, it } from 'vitest';
import { stepDown } from '../../src/lib/practice/step-down';

/** With p-values that never change, as Holm's procedure has them. */
function found(p: readonly number[], alpha: number): number[] {
  const fixed = (open: readonly number[]) => new Map(open.map((at) => [at, { p: p[at]!, own: true }]));
  return [...stepDown([...p.keys()], alpha, fixed).found.keys()];
}

describe("Holm's step-down", () => {
  /*
   * The example of R's documentation of p.adjust (R 4.2.2): set.seed(123); x <- rnorm(50, mean = c(rep(0, 25),
   * rep(3, 25))); p <- 2*pnorm(sort(-abs(x))). sum(p.adjust(p, "holm") <= 0.05) is 11; at 0.005 it is 5, and with
   * "bonferroni" 4. The rest of the fifty lies above 0.0066.
   */
  const first = [
    2.35405e-7, 2.10159e-5, 2.57684e-5, 9.81478e-5, 0.000105261, 0.000124148, 0.000132599, 0.00015685, 0.000225456,
    0.000379538, 0.000611494, 0.00161395, 0.00330243, 0.00353834, 0.005237,
  ];
  const p = [...first, ...Array.from({ length: 35 }, (_, at) => 0.0068 + at * 0.026)];

  it('finds as many as R does', () => {
    expect(found(p, 0.05)).toEqual([...Array(11).keys()]);
    expect(found(p, 0.005)).toEqual([...Array(5).keys()]);
    expect(p.filter((each) => each <= 0.005 / 50)).toHaveLength(4);
  });

  it('finds them in whatever order they come', () => {
    const turned = [...p].reverse();
    expect(found(turned, 0.05).map((at) => turned[at])).toEqual(first.slice(0, 11));
  });

  it('finds what Bonferroni and Hochberg both find in the fifteen of Benjamini and Hochberg (1995)', () => {
    // Journal of the Royal Statistical Society B 57:295: both reject the three smallest at 0.05; Holm lies between them.
    const fifteen = [
      0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528, 0.759, 1,
    ];
    expect(found(fifteen, 0.05)).toEqual([0, 1, 2]);
  });

  it('passes over a claim that fails for another reason, which goes on counting', () => {
    // By hand: of three, the second (0.02) would need 0.05/2 had the first left; the first stays, so 0.05/3 is asked.
    const own = (at: number) => at !== 0;
    const test = (p: readonly number[]) => (open: readonly number[]) =>
      new Map(open.map((at) => [at, { p: p[at]!, own: own(at) }]));
    expect([...stepDown([0, 1, 2], 0.05, test([0.001, 0.02, 0.5])).found.keys()]).toEqual([]);
    expect([...stepDown([0, 1, 2], 0.05, test([0.001, 0.016, 0.5])).found.keys()]).toEqual([1]);
  });

  it('tests the others again without what was found', () => {
    const test = (open: readonly string[], gone: readonly string[]) =>
      new Map(open.map((id) => [id, { p: id === 'a' ? 0.001 : gone.includes('a') ? 0.9 : 0.01, own: true }]));
    const said = stepDown(['a', 'b'], 0.05, test);
    expect([...said.found.keys()]).toEqual(['a']);
    expect(said.open.get('b')?.p).toBe(0.9);
  });

  it('counts a member that can no longer be tested, and never finds a p that is no number', () => {
    const test = (open: readonly number[]) => new Map(open.slice(0, 1).map((at) => [at, { p: 0.03, own: true }]));
    expect(stepDown([0, 1], 0.05, test).found.size).toBe(0);
    expect(found([NaN, 0.9], 0.05)).toEqual([]);
  });
});
