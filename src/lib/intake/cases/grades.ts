import type { EyeFact } from '../../model';
import { oncePer } from '../labels/once-per';
import { toNumber } from '../table/duration';

const GRADE = /^(?:(?:locs(?: iii)?|no|nc|ns|n|grade|gr|grad|stage)[\s.:-]*)*(\d(?:[.,]\d{1,2})?)$/i;

/** A grade as a number, where the levels of a fact are numbered: "NO 3.4", "ns2", "5". `null`: it is none; "2+" is one of four by its name. */
export function gradeOf(fact: EyeFact, text: string): number | null {
  if (numbered(fact).length < 4) return null;
  const written = GRADE.exec(text.trim())?.[1];
  const grade = written === undefined ? null : toNumber(written);
  return grade !== null && grade > 0 && grade < 7 ? grade : null;
}

/** The four levels whose keys are numbers, softest first. */
const numbered = oncePer(({ levels = [] }: EyeFact): string[] =>
  levels.filter(({ key }) => /^[1-4]$/.test(key)).map(({ id }) => id),
);

/**
 * How grades become the four levels. LOCS III goes in tenths from 0.1 to 6.9 (Chylack and others, Arch Ophthalmol
 * 1993;111:831); scales of five, from soft to black, are common practice. Where the cuts lie is ours, from memory: so each
 * grade is shown with its level and can be changed.
 */
export const scales = {
  rounded: { cuts: [1.5, 2.5, 3.5], words: '1 to 4, in between rounded: 2.5 is 3' },
  five: { cuts: [2.5, 3.5, 4.5], words: '1 to 5: 1 and 2 are the softest level, 5 the hardest' },
  locs: { cuts: [2.5, 3.5, 4.5], words: 'LOCS, 0.1 to 6.9: below 2.5, to 3.5, to 4.5, and above' },
} as const;
export type Scale = keyof typeof scales;

/** What the grades of a file look like. `null`: they are the levels as numbered, and nothing is asked. */
export function guessedScale(grades: readonly number[]): Scale | null {
  const largest = Math.max(0, ...grades);
  const whole = grades.every(Number.isInteger);
  if (largest <= 4 && whole) return null;
  if (whole && largest <= 5) return 'five';
  return largest <= 4 && grades.every((grade) => Number.isInteger(2 * grade)) ? 'rounded' : 'locs';
}

export function levelOfGrade(fact: EyeFact, grade: number, scale: Scale): string | null {
  const place = scales[scale].cuts.filter((cut) => grade >= cut).length;
  return numbered(fact)[place] ?? null;
}
