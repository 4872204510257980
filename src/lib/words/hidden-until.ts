import { counted } from '../format';

/** Until when times of a running window stay hidden: the one way to say it, in every room. */
export const HIDDEN_UNTIL = 'hidden until the window is full and its cases are reviewed, or its result is read';

/** Beside a drawing or table from which they are missing. `which`: "the running window", "a running window". */
export const heldBackWords = (count: number, which: string): string =>
  `${counted(count, 'case')} of ${which} ${count === 1 ? 'is' : 'are'} not in it: ${count === 1 ? 'its' : 'their'} times are ${HIDDEN_UNTIL}.`;

/** Beside the cases themselves. */
export const hiddenTimesWords = (count: number): string =>
  `${count === 1 ? 'The times of one case are' : `The times of ${count} cases are`} ${HIDDEN_UNTIL}: seeing half a window influences the other half.`;
