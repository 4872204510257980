import { note, type Ask, type Example } from '../questions';
import { blankOf, type Blank } from './blanks';

/** Asked once a file, for each way that occurs; the guess is what most people mean. */
const blankQuestions = {
  zero: { written: '0', guess: 'not-done' },
  dash: { written: '-', guess: 'not-done' },
  'n-a': { written: 'n/a', guess: 'not-done' },
  empty: { written: 'an empty field', guess: 'not-timed' },
} as const;

const LENGTHS = 'Either way no time of that step is kept for the case.';
const READINGS =
  'Either way no time of that step is kept for the case; where it was done, the step after it has none either.';

/** The ways of leaving a time out that occur, each with its first examples. */
export type BlanksSeen = Map<Blank, Example[]>;

export function noteBlank(seen: BlanksSeen, row: number, text: string): void {
  const blank = blankOf(text);
  if (blank === null) return;
  const examples = seen.get(blank) ?? [];
  seen.set(blank, examples);
  note(examples, row, text === '' ? 'empty' : text);
}

/**
 * Asks once for each way of leaving a time out that occurs. The record keeps no time either way and does not tell the two
 * apart; among clock readings they differ, since a length is counted from the reading before it.
 *
 * @returns what each means of its step
 */
export function blankMeaning(
  seen: BlanksSeen,
  readings: boolean,
  ask: Ask,
): (blank: Blank) => 'not-done' | 'not-timed' {
  const answers = new Map<Blank, 'not-done' | 'not-timed'>([
    ['not-done', 'not-done'],
    ['not-timed', 'not-timed'],
  ]);
  for (const blank of ['zero', 'dash', 'n-a', 'empty'] as const) {
    const examples = seen.get(blank);
    if (!examples) continue;
    const { written, guess } = blankQuestions[blank];
    const answer = ask({
      id: `blank:${blank}`,
      question: `What does ${written} mean where a time should be? ${readings ? READINGS : LENGTHS}`,
      options: [
        { value: 'not-done', label: 'the step was not done' },
        { value: 'not-timed', label: 'the step was done, not timed' },
      ],
      guess,
      examples,
    });
    answers.set(blank, answer === 'not-done' ? 'not-done' : 'not-timed');
  }
  return (blank) => answers.get(blank) ?? 'not-timed';
}
