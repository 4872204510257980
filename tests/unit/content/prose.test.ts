import { describe, expect, it } from 'vitest';
import { DURATION, FORBIDDEN } from './forbidden';
import { bare, overlap, readingGrade, sentencesOf, syllables } from './prose';

// A check that finds nothing may be blind: each is shown something to find.
describe('syllables', () => {
  it.each([
    ['the', 1],
    ['edge', 1],
    ['capsule', 2],
    ['held', 1],
    ['needed', 2],
    ['stopped', 1],
    ['places', 2],
    ['times', 1],
    ['little', 2],
    ['cornea', 3],
    ['viscoelastic', 5],
    ['iris', 2],
    ['anterior', 4],
    ['zonules', 2],
    ['inject', 2],
    ['re-grasp', 2],
  ])('%s has about %i', (word, count) => {
    expect(Math.abs(syllables(word) - count)).toBeLessThanOrEqual(1);
  });

  it('counts plain words exactly', () => {
    const plain: Record<string, number> = {
      the: 1,
      edge: 1,
      capsule: 2,
      needed: 2,
      stopped: 1,
      times: 1,
      little: 2,
      chamber: 2,
      nucleus: 3,
      cannula: 3,
      before: 2,
    };
    expect(Object.fromEntries(Object.keys(plain).map((word) => [word, syllables(word)]))).toEqual(plain);
  });
});

describe('readingGrade', () => {
  it('follows the published formula', () => {
    // Two sentences, eight words, eight syllables: 0.39 × 4 + 11.8 × 1 − 15.59.
    expect(readingGrade('Hold it still. Look at the edge first.')).toBeCloseTo(0.39 * 4 + 11.8 - 15.59, 10);
  });

  it('is above 9 for the prose of a textbook', () => {
    expect(
      readingGrade(
        'Insufficient ophthalmic viscosurgical device administration preceding capsulorhexis predisposes to peripheral extension, necessitating immediate reformation of the anterior chamber and consideration of alternative capsulotomy techniques.',
      ),
    ).toBeGreaterThan(9);
  });
});

describe('the forbidden list', () => {
  it.each([
    '12 s',
    '1:23',
    'under 60 seconds',
    'a minute',
    'half a minute',
    'five minutes',
    '90-second',
    'count the seconds',
  ])('finds the duration in "%s"', (text) => {
    expect(text).toMatch(DURATION);
  });

  it.each(['about 6 mm wide', 'a second instrument', 'the second half', 'three sites', '1.5 mm', 'one at a time'])(
    'finds no duration in "%s"',
    (text) => {
      expect(text).not.toMatch(DURATION);
    },
  );

  it.each([
    'You will be quicker.',
    'A fast tear.',
    'Your best case.',
    'It saves time.',
    'Improve it.',
    'It is on target.',
    'ViscoGel',
    'a level you reach',
  ])('refuses "%s"', (text) => {
    expect(FORBIDDEN.some(({ pattern }) => pattern.test(text))).toBe(true);
  });
});

describe('sentences', () => {
  it('splits at full stops and paragraphs', () => {
    expect(sentencesOf('One. Two?\n\nThree')).toEqual(['One.', 'Two?', 'Three']);
  });

  it('sees through a changed article and order', () => {
    expect(overlap(bare('The edge is held in view all round.'), bare('All round, an edge held in the view.'))).toBe(1);
    expect(
      overlap(bare('The edge is held in view all round.'), bare('A leaking port empties the chamber.')),
    ).toBeLessThan(0.2);
  });
});
