import { describe, expect, it } from 'vitest';
import { checkpointFiles, procedureFiles } from '../../../src/lib/server/content/content-files';
import { readGuidance } from '../../../src/lib/server/content/guidance';
import { readProcedures } from '../../../src/lib/server/content/procedures';
import { marksIn, withoutMarks } from '../../../src/lib/server/content/source-marks';
import { durationIn } from '../../../src/lib/words/note-durations';
import { DURATION, FORBIDDEN, PRACTISE } from './forbidden';
import { allTexts, bare, markedTexts, noteTexts, overlap, readingGrade, sentencesOf, wordsOf } from './prose';

const procedures = readProcedures(procedureFiles);
const pages = readGuidance(checkpointFiles, procedures);
const named = pages.map((page) => [`${page.procedureId}/${page.step}`, page] as const);

describe('coverage', () => {
  it('has a page for every active step of every shipped procedure, and no other', () => {
    const steps = procedures.flatMap(({ id, steps }) =>
      steps.filter(({ retired }) => !retired).map((step) => `${id}/${step.id}`),
    );
    expect(named.map(([name]) => name).sort()).toEqual(steps.sort());
  });
});

describe.each(named)('%s', (_, page) => {
  const step = procedures.find(({ id }) => id === page.procedureId)?.steps.find(({ id }) => id === page.step);

  it('has a short read of 150 to 300 words', () => {
    const count = wordsOf(withoutMarks(page.body)).length;
    expect(count).toBeGreaterThanOrEqual(150);
    expect(count).toBeLessThanOrEqual(300);
  });

  it('reads at grade 9 or below, short read and the rest each', () => {
    expect(readingGrade(withoutMarks(page.body))).toBeLessThanOrEqual(9);
    expect(
      readingGrade([...noteTexts(page), ...page.drills.flatMap((drill) => [drill.do, drill.passed])].join('\n\n')),
    ).toBeLessThanOrEqual(9);
  });

  it('says why in one sentence, and what to look for in one', () => {
    for (const { look, why } of page.checkpoints) {
      expect(sentencesOf(look)).toHaveLength(1);
      expect(sentencesOf(why)).toHaveLength(1);
    }
  });

  it('fits on a note: no text of it is longer than 30 words', () => {
    for (const text of noteTexts(page)) expect(wordsOf(text).length, text).toBeLessThanOrEqual(30);
  });

  it('leaves the note at 190 words at most, whichever three checkpoints stand on it', () => {
    // Printed and counted: with the standing lines this is one A5 side.
    const looks = page.checkpoints.map(({ look }) => wordsOf(look).length).sort((a, b) => b - a);
    const longest = looks.slice(0, 3).reduce((sum, count) => sum + count, 0);
    expect(longest + wordsOf([...page.stop, ...page.reminders].join(' ')).length).toBeLessThanOrEqual(190);
  });

  it('holds no duration in anything that goes on the note for the list', () => {
    for (const text of noteTexts(page)) {
      expect(text).not.toMatch(DURATION);
      // Nor what the tool would refuse in a surgeon's own words.
      expect(durationIn(text)).toBeNull();
    }
  });

  it.each(FORBIDDEN)('holds nothing that $why', ({ pattern }) => {
    for (const text of allTexts(page)) expect(text).not.toMatch(pattern);
  });

  it('says "practise" in drills alone', () => {
    for (const text of [...noteTexts(page), page.body])
      expect(withoutMarks(text).replace(/common practice/g, '')).not.toMatch(PRACTISE);
  });

  it('answers the patterns a record can show', () => {
    const fits = new Set<string>(page.checkpoints.flatMap((checkpoint) => checkpoint.fits));
    const asked = ['longer', 'varies', 'returned-to', 'hard-eyes', 'late-in-list', 'over-time', 'bimodality'];
    if (page.earlier.length > 0) asked.push('after-earlier');
    if (step && step.protectedParts.length > 0) asked.push('protected-parts');
    expect(asked.filter((pattern) => !fits.has(pattern))).toEqual([]);
  });

  it('marks the source of every sentence with a figure, and each mark stands inside its sentence', () => {
    const sentences = markedTexts(page).flatMap(sentencesOf);
    const withFigure = sentences.filter((sentence) => /\d/.test(withoutMarks(sentence)));
    expect(withFigure.filter((sentence) => marksIn(sentence).length === 0)).toEqual([]);
    // A mark after the full stop would open the next sentence and belong to nothing.
    expect(sentences.filter((sentence) => /^\s*\[/.test(sentence))).toEqual([]);
    expect(sentences.flatMap(marksIn).length).toBeGreaterThanOrEqual(withFigure.length);
  });

  it('gives a share of cases only with a published source or one from memory', () => {
    const rates = markedTexts(page)
      .flatMap(sentencesOf)
      .filter((sentence) => /\d(?:\.\d+)? (?:in|of(?: every)?) \d|\d ?%/.test(withoutMarks(sentence)));
    expect(rates.filter((sentence) => !marksIn(sentence).some((mark) => mark !== 'c'))).toEqual([]);
  });

  it('lists the year, or the number in a public archive, with every published source', () => {
    for (const source of page.sources)
      if (source.kind === 'published') expect(source.ref).toMatch(/\b(?:19|20)\d\d\b|\bPMC\d+\b/);
  });

  it('awaits its review', () => {
    // No practising surgeon has read any page yet. Whoever does sets `reviewed` and takes the page out of this list.
    expect(page.reviewed).toBeNull();
  });
});

describe('between files', () => {
  const sentences = named.flatMap(([name, page]) =>
    allTexts(page)
      .slice(1)
      // Pass marks are short rules ("three in a row") and may be the same.
      .filter((text) => !page.drills.some(({ passed }) => passed === text))
      .flatMap(sentencesOf)
      .map((sentence) => ({ name, sentence, bare: bare(sentence) })),
  );

  it('no sentence stands twice, inside a file or between two', () => {
    const seen = new Map<string, string>();
    const repeats: string[] = [];
    for (const { name, sentence } of sentences) {
      const key = wordsOf(sentence).join(' ');
      const first = seen.get(key);
      if (first) repeats.push(`${first} and ${name}: ${sentence}`);
      seen.set(key, name);
    }
    expect(repeats).toEqual([]);
  });

  it('no two sentences of five bare words or more say the same in nearly the same words', () => {
    const long = sentences.filter(({ bare }) => bare.length >= 5);
    const alike = long.flatMap((a, index) =>
      long
        .slice(index + 1)
        .filter((b) => overlap(a.bare, b.bare) >= 0.6)
        .map((b) => `${a.name} and ${b.name}: ${a.sentence} | ${b.sentence}`),
    );
    expect(alike).toEqual([]);
  });
});
