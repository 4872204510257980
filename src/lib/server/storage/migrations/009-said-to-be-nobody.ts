import type { Migration } from './migration';

/**
 * The profile may carry `notPersons`: bits of text that looked like a person and were said to be none. Before, the answer
 * was not kept, and none is made up. The number rises so that an older program, which would take the field for damage,
 * refuses the file untouched.
 */
export const saidToBeNobody: Migration = { to: 9, documents: {} };
