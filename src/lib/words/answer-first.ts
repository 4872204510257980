import { capital, counted } from '../format';

/** How many cases wait for their checkpoints to be answered. */
export const waitsWords = (cases: number): string =>
  `${capital(counted(cases, 'case'))} ${cases === 1 ? 'waits' : 'wait'} for your review.`;

/** Why checkpoints come before the result, on Now and on After twenty. */
export const ANSWER_FIRST =
  'Answer their checkpoints first: once the result is known, what you remember follows it. It can be read at once all the same; answers given later are then marked.';
