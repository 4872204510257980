import { remembered } from './once-per';

/** Nobody's name for a thing is longer; what follows costs time and cannot make it one. */
const LONGEST_NAME = 200;

/**
 * What is left of a name when case, accents, signs and runs of spaces are taken away: "I/A (Cortex)" → "i a cortex".
 * Plus signs stay, since "2+" is a grade.
 */
export const plainWords = remembered((text) =>
  text
    .slice(0, LONGEST_NAME)
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase()
    .replace(/&/g, ' and ')
    .replace(/['’]s\b/g, 's')
    .replace(/[^\p{L}\p{N}+]+/gu, ' ')
    .trim(),
);

/** The same without its spaces, so that "hydro dissection" meets "hydrodissection". */
export const squeezed = (words: string): string => words.replaceAll(' ', '');

/** Words that only say that something was timed, or number it: "Step 4: Rhexis time" means "rhexis". */
const SAYS_NOTHING = new Set([
  'step',
  'phase',
  'stage',
  'time',
  'times',
  'duration',
  'the',
  'a',
  'of',
  'total',
  'length',
  'timing',
]);

/** A name without such words; the name itself when nothing would be left. */
export function essential(words: string): string {
  const kept = words
    .replace(/^(?:step |phase |stage |p|s)?\d+ (?=\p{L})/u, '')
    .split(' ')
    .filter((word) => !SAYS_NOTHING.has(word));
  return kept.length > 0 ? kept.join(' ') : words;
}

/** Names written one after another, with commas between. */
export const named = (written: string): string[] => written.split(/,\s+/);
