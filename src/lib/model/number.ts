import { z } from 'zod';

/**
 * Numbers as they are stored, each with a limit that no real record reaches. Without one, a slip or a damaged file can
 * hold a number that is valid and that no page can draw: a list of 9,007,199,254,740,991 operations. One table, because
 * what is accepted in one place must be readable in every other.
 */
const upTo = (most: number) => `not more than ${most.toLocaleString('en-GB')}`;

/** Operations of one list, places in it, times something happened in one case. A three-day camp has a few hundred. */
const MOST_OF_A_LIST = 1000;
export const countOnList = z.number().int().nonnegative().max(MOST_OF_A_LIST, upTo(MOST_OF_A_LIST));
export const placeOnList = z.number().int().positive().max(MOST_OF_A_LIST, upTo(MOST_OF_A_LIST));

/** Cases of a working life, with room to spare: a busy one has some tens of thousands. */
const MOST_OF_A_LIFE = 1_000_000;
export const countOfCases = z.number().int().nonnegative().max(MOST_OF_A_LIFE, upTo(MOST_OF_A_LIFE));

const FAR = 1_000_000_000;
/** Order in time; between two numbers there is room for a fraction. */
export const sequence = z.number().min(0, 'not below 0').max(FAR, upTo(FAR));
export const rowNumber = z.number().int().positive().max(FAR, upTo(FAR));
export const version = z.number().int().positive().max(FAR, upTo(FAR));
/** A value read from a file, whatever it counts. */
export const value = z.number().min(-FAR, `not below -${FAR}`).max(FAR, upTo(FAR));

const A_DAY = 86_400;
/** Seconds on the clock of a recording, or of one step in one case. */
export const clockSeconds = z
  .number()
  .nonnegative()
  .max(10 * A_DAY, upTo(10 * A_DAY));
export const stepSeconds = z.number().positive().max(A_DAY, upTo(A_DAY));
