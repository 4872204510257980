import type { DocumentKind } from '../documents';
import { timesSeenWhileLeftOut } from './002-times-seen-while-left-out';
import { countWhatIsErased } from './003-count-what-is-erased';

/** The shape in which this version writes. Rises by one with every migration. */
export const schemaVersion = 3;

/** From the shape before to the shape of `to`, for the kinds of document it concerns; the others only change number. */
export type Migration = {
  to: number;
  documents: { readonly [Kind in DocumentKind]?: (document: Record<string, unknown>) => Record<string, unknown> };
};

/**
 * All migrations, in order, each in a file of its own (`002-<what-changed>.ts`) with a test that loads a file of the old shape.
 * A migration is never edited once released: files of any earlier version may still lie in somebody's folder.
 * Version 1 is the first shape there was.
 */
export const migrations: readonly Migration[] = [timesSeenWhileLeftOut, countWhatIsErased];
