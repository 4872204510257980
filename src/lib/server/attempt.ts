import type { FieldError } from '../rooms/forms/fields';
import { TypedTextError } from './about-persons';
import { StaleVersionError, StorageError } from './storage/port';

/**
 * Runs a change; what the store refuses comes back as an error of `field`, anything else is thrown on.
 * Redirects stand outside of it, so they are never caught here.
 */
export async function attempt<T>(
  field: string,
  change: () => Promise<T>,
): Promise<{ done: T; refused: null } | { done: null; refused: FieldError }> {
  try {
    return { done: await change(), refused: null };
  } catch (error) {
    if (error instanceof TypedTextError) return { done: null, refused: { field: error.field, message: error.message } };
    if (error instanceof StorageError || error instanceof StaleVersionError)
      return { done: null, refused: { field, message: error.message } };
    throw error;
  }
}
