import type { Migration } from './migration';

/**
 * A case may carry `side` and `remark`. Before, neither could be kept, and none is made up. The number rises so that an
 * older program, which would take the fields for damage, refuses the file untouched.
 */
export const sideAndRemark: Migration = { to: 10, documents: {} };
