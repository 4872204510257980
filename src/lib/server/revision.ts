import { createHash } from 'node:crypto';
import { textOf, type FieldError, type Fields } from '../rooms/forms/fields';
import { storedBeside } from '../rooms/forms/stored-beside';
import { StaleVersionError } from './storage/port';

/**
 * A mark of what a form was filled from: it goes out with the page and comes back with the form. Made from the very
 * values the form shows, so that two forms on one document do not get in each other's way, and no number has to be
 * kept.
 */
export const revisionOf = (shown: unknown): string =>
  createHash('sha256')
    .update(JSON.stringify(shown) ?? '')
    .digest('hex')
    .slice(0, 16);

/**
 * Called inside the change, with what is stored at that moment.
 * @param seen the mark that came with the form; '' from a form without one, which changes nothing it does not show
 * @param now what is stored, in words, to stand beside what was typed
 * @throws StaleVersionError where the values were changed since the page was opened
 */
export function refuseIfStale(seen: string, stored: unknown, what: string, now: string | null): void {
  if (seen !== '' && seen !== revisionOf(stored)) throw new StaleVersionError(what, now);
}

/** As `refuseIfStale`, for a form that shows all it was filled from: an error with what is stored where it differs. */
export function staleForm(field: string, sent: Fields, stored: Fields, what: string): FieldError | null {
  try {
    refuseIfStale(textOf(sent, 'seen'), stored, what, storedBeside(stored, sent));
    return null;
  } catch (why) {
    return { field, message: (why as StaleVersionError).message };
  }
}
