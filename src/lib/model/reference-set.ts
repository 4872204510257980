import { z } from 'zod';
import { factValueSchema } from './case';
import { instant, referenceId, slug } from './id';
import { stepSeconds, value } from './number';
import { label } from './written';

/** Other surgeons' timings of the same steps. No names, dates, codes, positions, events or notes. */
export const referenceCaseSchema = z.strictObject({
  /** R1, R2, … */
  reader: z.string().regex(/^R\d+$/),
  /** A number only, so that lists can be resampled. */
  list: value.int().nullable(),
  facts: z.record(slug, factValueSchema),
  /** Step id → step time in seconds. */
  stepSeconds: z.record(slug, stepSeconds),
});

export const referenceSetSchema = z.strictObject({
  id: referenceId,
  label: label(z.string().min(1)),
  procedureId: slug,
  /** "They agreed": the day it was confirmed. */
  agreedAt: instant,
  cases: z.array(referenceCaseSchema),
  invented: z.boolean().default(false),
});

export type ReferenceCase = z.infer<typeof referenceCaseSchema>;
export type ReferenceSet = z.infer<typeof referenceSetSchema>;
