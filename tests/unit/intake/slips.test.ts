import fc from 'fast-check';
import { expect, it } from 'vitest';
import { lettersOf, slipsAtLeast, slipsBetween } from '../../../src/lib/intake/labels/slips';

it.each([
  // Worked out by hand from the definition (Boytsov 2011): changed, missing, added, changed about.
  ['rhexis', 'rhexis', 0],
  ['rhexis', 'rhexos', 1],
  ['rhexis', 'rhxis', 1],
  ['rhexis', 'rrhexis', 1],
  ['rhexis', 'rhxeis', 1],
  ['kitten', 'sitting', 3],
])('%s and %s are %i slips apart', (a, b, slips) => {
  expect(slipsBetween(a, b, 9)).toBe(slips);
  expect(slipsBetween(a, b, 0)).toBe(Math.min(slips, 1));
});

it('letters that only one word has never make more slips than there are', () => {
  const word = fc.oneof(fc.string({ maxLength: 12 }), fc.stringMatching(/^[a-e]{0,8}$/));
  fc.assert(
    fc.property(word, word, (a, b) => {
      expect(slipsAtLeast(lettersOf(a), lettersOf(b))).toBeLessThanOrEqual(slipsBetween(a, b, 99));
    }),
    { numRuns: 2000 },
  );
});
