import { describe, expect, it } from 'vitest';
import { oneRun } from '../../bench/characteristics-judge';
import { rows } from '../../bench/characteristics-rows';

/**
 * A small seeded part of `npm run bench -- characteristics`: enough to notice a rule broken outright, not to measure it.
 * The bounds are wide on purpose; beside each stands the chance that a rule exactly at its bar would fail by chance
 * with another seed (binomial, scipy.stats.binom).
 */
const RUNS = 60;
function count(name: string, kind: string): number {
  const row = rows.find((one) => one.world.name === name);
  if (!row) throw new Error(`no world ${name}`);
  let found = 0;
  for (let run = 0; run < RUNS; run += 1) if (oneRun(row.world, 7, run)?.kind === kind) found += 1;
  return found;
}

describe('how often a result appears', () => {
  it('nothing changed: shorter in at most 6 of 60', () => {
    // At the bar of 3 %: P(7 or more of 60) = 0.002.
    expect(count('nothing', 'shorter')).toBeLessThanOrEqual(6);
  });

  it('every step a fifth shorter, not recorded: shorter in at most 6 of 60', () => {
    expect(count('all-20', 'shorter')).toBeLessThanOrEqual(6);
  });

  it('the step alone a fifth shorter: shorter in at least 37 of 60', () => {
    // At the bar of 77 %: P(36 or fewer of 60) = 0.003.
    expect(count('alone-40', 'shorter')).toBeGreaterThanOrEqual(37);
  });

  it('is the same for one seed', () => {
    expect(count('alone-40', 'shorter')).toBe(count('alone-40', 'shorter'));
  });
});
