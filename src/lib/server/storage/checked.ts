import type { z } from 'zod';
import { frozen } from './frozen';
import { StorageError } from './port';

/**
 * A record as it may be stored: parsed at the boundary, frozen.
 * @throws StorageError `invalid`, naming the field.
 */
export function checked<Schema extends z.ZodType>(schema: Schema, value: unknown, what: string): z.infer<Schema> {
  const parsed = schema.safeParse(value);
  if (parsed.success) return frozen(parsed.data);
  const [issue] = parsed.error.issues;
  const field = issue?.path.join('.') || 'the whole of it';
  throw new StorageError('invalid', `${what} cannot be stored: ${field}: ${issue?.message}. Nothing was written.`);
}

/** @throws StorageError `not-found` */
export const found = <T>(value: T | null | undefined, what: string): T => {
  if (value === null || value === undefined)
    throw new StorageError('not-found', `${what} is not in the record. It may have been removed in another window.`);
  return value;
};
