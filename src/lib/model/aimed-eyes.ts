import { z } from 'zod';
import { slug } from './id';
import { ours } from './written';

/**
 * The kind of eye a goal is aimed at: one fact at one level (`small`; `yes` or `no`), or at levels taken together
 * (`hard+very-hard`). Frozen with the goal, its words too: they stay readable when the procedure loses the fact.
 */
export const aimedEyesSchema = z.strictObject({
  fact: slug,
  level: ours(z.string().min(1), 'ids of levels of a fact'),
  /** As it stands in a sentence: "pupil small". */
  label: ours(z.string().min(1), 'put together from labels of the procedure'),
});

export type AimedEyes = z.infer<typeof aimedEyesSchema>;
