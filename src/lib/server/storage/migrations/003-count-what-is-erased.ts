import type { Migration } from './migration';

/**
 * Goals and lists may carry `erased`: how many of their cases were erased, and in how many of those events had been
 * answered. Cases erased before this were not counted, and nothing is made up for them: a document stays as it is, and
 * the field is missing until the next case goes. The number rises so that an older program, which would take the field
 * for damage, refuses the file and leaves it untouched.
 */
export const countWhatIsErased: Migration = { to: 3, documents: {} };
