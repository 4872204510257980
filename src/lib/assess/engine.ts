/**
 * Which way of computing a stored result came from. Raised by one whenever a change of the rules could move a number,
 * so that a result read later says by what it was made.
 */
export const ENGINE = 'next-twenty/3';
