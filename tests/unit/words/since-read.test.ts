import { describe, expect, it } from 'vitest';
import { fateName, sinceReasonWords, sinceTodayWords, type SinceReason, type SinceToday } from '../../../src/lib/words';

const fate = (codes: string[], of = 20, part: 'baseline' | 'window' = 'window'): SinceReason => ({
  code: 'fate',
  part,
  fate: 'changed',
  numbers: { cases: codes.length, of },
  codes,
});
/** One of each: a code without its example does not compile. */
const REASONS: { [Code in SinceReason['code']]: SinceReason & { code: Code } } = {
  'baseline-changed': { code: 'baseline-changed' },
  'cases-changed': { code: 'cases-changed' },
  'computed-otherwise': { code: 'computed-otherwise' },
  fate: { code: 'fate', part: 'baseline', fate: 'left-out', numbers: { cases: 2, of: 40 }, codes: ['C1', 'C2'] },
};
const TODAY: { [Code in SinceToday['code']]: SinceToday & { code: Code } } = {
  'not-worked-out': { code: 'not-worked-out' },
  cannot: { code: 'cannot' },
  same: { code: 'same' },
  moved: { code: 'moved', numbers: { estimate: Math.log(0.82), low: Math.log(0.74), high: Math.log(0.91) } },
};

describe('what changed since a result was read', () => {
  it('is said whatever it is, each in its own sentence', () => {
    const said = [
      ...Object.values(REASONS).map((reason) => sinceReasonWords(reason, true)),
      ...Object.values(TODAY).map(sinceTodayWords),
    ];
    expect(new Set(said).size).toBe(said.length);
    for (const sentence of said) expect(sentence).toMatch(/^[A-Z0-9].*[.\d]$/);
  });

  it('counts the cases, and names them only where asked', () => {
    expect(sinceReasonWords(REASONS.fate, false)).toBe('2 of the 40 baseline cases have been left out since.');
    expect(sinceReasonWords(REASONS.fate, true)).toBe(
      '2 of the 40 baseline cases have been left out since: C1 and C2.',
    );
    expect(sinceReasonWords(fate(['C1'], 1), false)).toBe(
      'The only one of the cases of the window has been changed since.',
    );
    const many = Array.from({ length: 10 }, (_, index) => `C${index + 1}`);
    expect(sinceReasonWords(fate(many), true)).toMatch(/since: C1, .*, C8 and 2 others\.$/);
  });

  it('gives today’s figure as a percentage with its interval', () => {
    expect(sinceTodayWords(TODAY.moved)).toContain('would give 18\u00A0% less (9 to 26\u00A0% less).');
  });

  it('names its row in a file', () => {
    expect(fateName(REASONS.fate)).toBe('baseline cases left out since the result was read');
  });
});
