import type { z } from 'zod';

/**
 * Shipped content that cannot be used. Thrown while the module loads, so that a bad file stops the build and the start
 * instead of leaving a room with a hole in it.
 */
export class ContentError extends Error {
  override readonly name = 'ContentError';

  constructor(
    /** Path as the project knows it: `content/checkpoints/phaco/40-capsulorhexis.md`. */
    readonly file: string,
    /** Dotted path of the field (`checkpoints.2.look`), or what part of the file is meant. */
    readonly field: string,
    readonly why: string,
  ) {
    super(`${file}: ${field}: ${why}`);
  }
}

/**
 * Data of one file through its schema.
 * @throws ContentError naming file and first bad field.
 */
export function checked<Schema extends z.ZodType>(schema: Schema, data: unknown, file: string): z.output<Schema> {
  const result = schema.safeParse(data);
  if (result.success) return result.data;
  const first = result.error.issues[0];
  throw new ContentError(file, first?.path.join('.') || 'file', first?.message ?? 'not readable');
}
