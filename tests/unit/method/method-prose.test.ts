import { describe, expect, it } from 'vitest';
import { loadMethodPages } from '../../../src/lib/server/content';
import { readingGrade } from '../content/prose';

const pages = loadMethodPages();
const ofNumbers = pages.filter(({ id }) => id !== 'changes');

/** What every reader reads: without tables, and without the parts that name formulas and journals. */
const plainOf = (body: string): string =>
  body
    .split(/\n\s*\n/)
    .filter((part) => !/^\*\*(For statisticians|Source)\b|^\|/.test(part))
    .map((part) => part.replace(/`[^`]*`/g, ''))
    .join('\n\n');

/** Words of ours for which the trade or the statistician has a term. */
const OURS =
  /\b(usual(?:ly)?|one in five(?! of| may)|re-?draws?|re-?drawn|starting (?:cases|usual)|the twenty\b(?! that)|kept parts?|went back|going back|level with|nought|hidden ease|two humps|clipped so that)\b/i;

describe.each(ofNumbers.map(({ id, body }) => [id, body] as const))('the page "%s"', (_, body) => {
  it('reads at grade 9 or below', () => {
    expect(readingGrade(plainOf(body))).toBeLessThanOrEqual(9);
  });

  it('works an example of four', () => {
    expect(body).toMatch(/\*\*Four [a-z]/);
  });

  it('gives its formulas under a heading of its own', () => {
    const formal = body.split('**For statisticians.**');
    expect(formal).toHaveLength(2);
    // Nothing in the plain part needs a formula.
    expect(formal[0]).not.toMatch(/[δλσμτρβ]|√/);
  });

  it("uses the trade's words", () => {
    expect(body.match(OURS)?.[0]).toBeUndefined();
  });
});
