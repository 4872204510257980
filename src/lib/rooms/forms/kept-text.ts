import type { z } from 'zod';

/** A text kept as JSON (a draft), as `schema` knows it; `null` for none, one that is broken, or one of another shape. */
export function keptText<T>(schema: z.ZodType<T>, text: string | null): T | null {
  if (text === null) return null;
  try {
    return schema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
