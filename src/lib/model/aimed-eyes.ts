import { z } from 'zod';
import { slug } from './id';

/**
 * The kind of eye a goal is aimed at: one fact at one level (`small`; `yes` or `no`), or at levels taken together
 * (`hard+very-hard`). Frozen with the goal, its words too: they stay readable when the procedure loses the fact.
 */
export const aimedEyesSchema = z.strictObject({
  fact: slug,
  level: z.string().min(1),
  /** As it stands in a sentence: "pupil small". */
  label: z.string().min(1),
});

export type AimedEyes = z.infer<typeof aimedEyesSchema>;
