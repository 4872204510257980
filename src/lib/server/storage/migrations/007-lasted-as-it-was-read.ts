import type { Migration } from './migration';

/**
 * A stored result may carry `lasted`: whether it lasted, with its figure and the moment it was read. Before, that figure
 * was worked out anew at every look and kept nowhere, so none is made up: it waits to be read. The number rises so that
 * an older program, which would take the field for damage, refuses the file untouched.
 */
export const lastedAsItWasRead: Migration = { to: 7, documents: {} };
