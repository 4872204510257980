import type { Guidance } from '../../../src/lib/rules/types';
import { withoutMarks } from '../../../src/lib/server/content/source-marks';

/** What goes on the note for the list: no time may stand in it. */
export const noteTexts = (page: Guidance): string[] => [
  page.aim,
  ...page.protectedParts,
  ...page.checkpoints.flatMap(({ look, why }) => [look, why]),
  ...page.reminders,
  ...page.stop,
];

/** Every text of a page a reader sees, sources and ids apart. */
export const allTexts = (page: Guidance): string[] => [
  page.title,
  ...noteTexts(page),
  ...page.drills.flatMap((drill) => [drill.do, drill.passed]),
  withoutMarks(page.body),
];

/** Every text of a page as it stands in the file, with its source marks. */
export const markedTexts = (page: Guidance): string[] => [
  ...[...noteTexts(page), ...page.drills.flatMap((drill) => [drill.do, drill.passed])].map(
    (text) => page.marked[text] ?? text,
  ),
  page.body,
];

/** Sentences, one a string. Abbreviations with a full stop are not used in the library, so a full stop ends a sentence. */
export const sentencesOf = (text: string): string[] =>
  text
    .replace(/[*_#>]/g, ' ')
    .split(/(?<=[.!?])\s+|\n\s*\n/)
    .map((sentence) => sentence.trim())
    .filter((sentence) => /[a-z]/i.test(sentence));

/** Words, lower case; figures are not words. */
export const wordsOf = (text: string): string[] => text.toLowerCase().match(/[a-z]+(?:['’-][a-z]+)*/g) ?? [];

/**
 * Syllables by rule of thumb: groups of vowels, less a silent final e, -es or -ed; at least one. Right for about nine
 * English words in ten, and its errors go both ways. No medical word is counted as shorter than it is.
 */
export function syllables(word: string): number {
  const parts = word.split(/['’-]/).filter((part) => part !== '');
  const one = (part: string): number => {
    const groups = part.match(/[aeiouy]+/g)?.length ?? 0;
    const split = part.match(/ia(?!l$)|io(?!us|n)|eo|iu|[^q]ua(?!r)|eus$|oe(?=la)/g)?.length ?? 0;
    const silent = /[^aeiouyl]e$|[aeiouy]le$|[^aeiouydt]ed$|[^aeiouyscgxz]es$/.test(part) ? 1 : 0;
    return Math.max(1, groups + split - silent);
  };
  return parts.reduce((sum, part) => sum + one(part), 0);
}

/** Flesch–Kincaid grade (Kincaid and others 1975): 0.39 words a sentence + 11.8 syllables a word − 15.59. */
export function readingGrade(text: string): number {
  const words = wordsOf(text);
  const spoken = words.reduce((sum, word) => sum + syllables(word), 0);
  return 0.39 * (words.length / sentencesOf(text).length) + 11.8 * (spoken / words.length) - 15.59;
}

/** A sentence without case, punctuation and the commonest words: what makes two sentences the same to a reader. */
export const bare = (sentence: string): string[] =>
  wordsOf(sentence).filter(
    (word) =>
      !/^(a|an|the|it|its|is|are|be|of|to|in|on|at|and|or|you|your|that|this|not|do|does|for|with|as|by)$/.test(word),
  );

/** Share of the words two sentences have in common (Jaccard), 0 to 1. */
export function overlap(a: readonly string[], b: readonly string[]): number {
  const first = new Set(a);
  const second = new Set(b);
  const shared = [...first].filter((word) => second.has(word)).length;
  return shared / (first.size + second.size - shared);
}
