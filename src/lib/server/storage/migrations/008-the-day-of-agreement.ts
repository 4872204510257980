import type { Migration } from './migration';

/**
 * Goals may carry `agreedAt`, the day a draft was agreed with the supervisor: weeks and window count from it. Before, that
 * day was not kept, and none is made up. The number rises so that an older program, which would take the field for damage,
 * refuses the file untouched.
 */
export const theDayOfAgreement: Migration = { to: 8, documents: {} };
