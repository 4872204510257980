import type { Migration } from './migration';

/**
 * Three fields may now say more: when an event was noticed can be *not known*; a decision can be to go on, or to go over to
 * checkpoints, after an event at the step, with how many had been written down by then; and a note can have been written
 * when the result was known. What was stored before keeps its values: which events were taken as noticed during the
 * operation because a file did not say, cannot be told from those of which it was said. The number alone rises, so that a
 * program of before refuses the new values as newer and does not take them for damage.
 */
export const knownOnlyWhereAsked: Migration = { to: 5, documents: {} };
