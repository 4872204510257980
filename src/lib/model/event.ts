import { z } from 'zod';
import { instant, slug } from './id';
import { label, note } from './written';

/** A complication or near miss, tied to a step where known. */
export const eventSchema = z.strictObject({
  kind: label(z.string().min(1)),
  stepId: slug.nullable(),
  serious: z.boolean(),
  nearMiss: z.boolean(),
  noticed: z.enum(['during', 'same-day', 'later', 'not-known']),
  /**
   * The written review: when, and what the surgeon will do. `null` while it waits. Its text is `null` where it was written
   * elsewhere and the file that told of it left it out, as files do unless it is asked for.
   */
  reviewed: z.strictObject({ at: instant, text: note(z.string().min(1)).nullable() }).nullable(),
});

export type Event = z.infer<typeof eventSchema>;
