import { describe, expect, it } from 'vitest';
import { NOTHING_BAR, suggestionIn } from '../../bench/nothing-stands-out';
import { nineEqualSteps, referenceOf } from '../../bench/simulated-record';

/** A small part of `npm run bench -- nothing-stands-out`, with two Monte-Carlo errors beside the bar. */
describe('nine equal steps', () => {
  const runs = 40;
  const kinds = (cases: number, reference: boolean) =>
    Array.from(
      { length: runs },
      (_, run) =>
        suggestionIn(
          nineEqualSteps(cases),
          reference ? [referenceOf(nineEqualSteps(24), 7000 + run)] : [],
          90_000 + 100 * cases + run,
          300,
        ).kind,
    );
  const margin = 2 * Math.sqrt((NOTHING_BAR * (1 - NOTHING_BAR)) / runs);

  for (const cases of [20, 40, 100])
    it(`are answered with "nothing stands out" in at least 80 of 100 records of ${cases} cases`, () => {
      for (const reference of [false, true]) {
        const share = kinds(cases, reference).filter((kind) => kind === 'nothing').length / runs;
        expect(share).toBeGreaterThan(NOTHING_BAR - margin);
      }
    });

  it('a step that truly takes twice as long is named', () => {
    const world = { ...nineEqualSteps(100), usual: [120, 60, 60, 60, 60, 60, 60, 60, 60] };
    const named = Array.from({ length: 20 }, (_, run) =>
      suggestionIn(world, [], 50_000 + run, 300).steps.includes('s1'),
    );
    expect(named.filter(Boolean).length).toBeGreaterThan(16);
  });
});
