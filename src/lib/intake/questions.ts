import { intakeThresholds } from './thresholds';

export type Option = { value: string; label: string };

/** A row of the file, to see what is meant. */
export type Example = { row: number; text: string };

/** One of a row, and the first few: to see what is meant from several rows. */
export function note(examples: Example[], row: number, text: string): void {
  if (examples.length < intakeThresholds.examples && examples.at(-1)?.row !== row) examples.push({ row, text });
}

/**
 * Something the file leaves open, asked once. A plain form can post the answer back: `id` is the name of the
 * field, `answer` the option chosen so far (the guess, until somebody answers).
 */
export type Question = {
  id: string;
  question: string;
  options: readonly Option[];
  guess: string;
  answer: string;
  /** Was it answered, or is it the guess? */
  answered: boolean;
  /** Nothing is taken in before this is answered: a guess would be unfair to somebody. */
  mustAnswer: boolean;
  /** At most three rows of the file, to see what is meant. */
  examples: readonly Example[];
};

export type Ask = (
  question: Pick<Question, 'id' | 'question' | 'options' | 'guess'> & {
    mustAnswer?: boolean;
    examples?: readonly Example[];
  },
) => string;

/** Collects what is asked; an answer that is no option counts as not given. */
export function asker(choices: Readonly<Record<string, string>>): { ask: Ask; questions: Question[] } {
  const questions: Question[] = [];
  const ask: Ask = ({ mustAnswer = false, examples = [], ...asked }) => {
    const before = questions.find(({ id }) => id === asked.id);
    if (before) return before.answer;
    const chosen = Object.hasOwn(choices, asked.id) ? choices[asked.id] : undefined;
    const answered = chosen !== undefined && asked.options.some(({ value }) => value === chosen);
    const answer = answered ? chosen : asked.guess;
    questions.push({ ...asked, answer, answered, mustAnswer, examples: examples.slice(0, intakeThresholds.examples) });
    return answer;
  };
  return { ask, questions };
}
