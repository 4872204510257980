import { describe, expect, it } from 'vitest';
import type { Effect } from '../../../src/lib/model';
import { verdictOf, type Evidence } from '../../../src/lib/practice/verdict';

const effect = (estimate: number, half: number, allowance = 0): Effect => ({
  estimate,
  low: estimate - half,
  high: estimate + half,
  rawEstimate: estimate - allowance,
  rawLow: estimate - allowance - half,
  rawHigh: estimate - allowance + half,
  se: half / 2,
  df: 50,
  nBaseline: 40,
  nWindow: 20,
  method: 'made up',
});

const evidence = (parts: Partial<Evidence>): Evidence => ({
  against: effect(-0.02, 0.15),
  plain: effect(-0.02, 0.15),
  rest: effect(0, 0.08),
  restShorter: false,
  restLonger: false,
  ownShorter: true,
  difficultyOffHigh: null,
  steer: -0.12,
  ...parts,
});

describe('the first line of the result table that applies', () => {
  it('shorter: below 0 against the rest, and the step itself moved', () => {
    expect(verdictOf(evidence({ against: effect(-0.2, 0.15), plain: effect(-0.18, 0.2) }))).toBe('shorter');
  });

  it('not shorter when the step itself moved by less than half of it: the rest took longer', () => {
    const parts = { against: effect(-0.18, 0.15), rest: effect(0.13, 0.08) };
    expect(verdictOf(evidence({ ...parts, plain: effect(-0.091, 0.15) }))).toBe('shorter');
    expect(verdictOf(evidence({ ...parts, plain: effect(-0.089, 0.15) }))).toBe('rest-longer');
  });

  it('where the rest clearly took longer, only if the step itself clearly took less time', () => {
    const parts = {
      against: effect(-0.25, 0.15),
      plain: effect(-0.15, 0.2),
      rest: effect(0.1, 0.08),
      restLonger: true,
    };
    expect(verdictOf(evidence({ ...parts, ownShorter: true }))).toBe('shorter');
    expect(verdictOf(evidence({ ...parts, ownShorter: false }))).toBe('rest-longer');
  });

  it('where the rest is clearly shorter, only if it holds with more of the rest taken off', () => {
    const parts = {
      against: effect(-0.2, 0.15),
      plain: effect(-0.4, 0.15),
      rest: effect(-0.2, 0.08),
      restShorter: true,
    };
    expect(verdictOf(evidence({ ...parts, difficultyOffHigh: -0.01 }))).toBe('shorter');
    expect(verdictOf(evidence({ ...parts, difficultyOffHigh: 0.01 }))).toBe('all-round');
    expect(verdictOf(evidence({ ...parts, difficultyOffHigh: null }))).toBe('all-round');
  });

  it('shorter all round: the rest clearly shorter, and the step alone too', () => {
    const parts = { rest: effect(-0.2, 0.08), restShorter: true };
    expect(verdictOf(evidence({ ...parts, against: effect(-0.02, 0.15), plain: effect(-0.22, 0.15) }))).toBe(
      'all-round',
    );
    expect(verdictOf(evidence({ ...parts, against: effect(-0.02, 0.15), plain: effect(-0.1, 0.15) }))).toBe(
      'cannot-tell',
    );
  });

  it('longer: by the interval without the allowance, and the step itself moved', () => {
    expect(verdictOf(evidence({ against: effect(0.25, 0.15, 0.05), plain: effect(0.2, 0.15, 0.05) }))).toBe('longer');
    expect(verdictOf(evidence({ against: effect(0.17, 0.15, 0.05), plain: effect(0.2, 0.15, 0.05) }))).not.toBe(
      'longer',
    );
    expect(verdictOf(evidence({ against: effect(0.2, 0.15), plain: effect(0.05, 0.15) }))).not.toBe('longer');
  });

  it('little change: the whole interval lies above what was hoped for', () => {
    expect(verdictOf(evidence({ against: effect(0.01, 0.1) }))).toBe('little-change');
    expect(verdictOf(evidence({ against: effect(-0.06, 0.1) }))).toBe('cannot-tell');
    expect(verdictOf(evidence({ against: effect(0.01, 0.1), steer: null }))).toBe('cannot-tell');
  });

  it('no claim from the step alone', () => {
    expect(verdictOf(evidence({ against: null, plain: effect(-0.5, 0.1) }))).toBe('cannot-tell');
  });
});
