import { z } from 'zod';
import { instant, slug } from './id';
import { countOfCases, placeOnList } from './number';

export const ownCheckpointSchema = z.strictObject({
  id: z.string(),
  procedureId: slug,
  stepId: slug,
  look: z.string().min(1),
  /** Markdown. */
  text: z.string(),
  at: instant,
});

/** Settings and the few facts about the surgeon's own circumstances. No name. */
export const profileSchema = z.strictObject({
  procedureId: slug,
  inTraining: z.boolean().nullable(),
  /** Cases of each procedure done before this record began, if said ("experience" note). */
  casesBefore: z.record(slug, countOfCases),
  ownCheckpoints: z.array(ownCheckpointSchema),
  recordingsConsentAt: instant.nullable(),
  timingPlan: z.strictObject({ perList: z.union([z.literal('all'), placeOnList]), seed: z.number().int() }).nullable(),
  /** Rate of serious events set beforehand for the monitor, with where it comes from. */
  seriousRate: z.strictObject({ rate: z.number().positive().max(0.5), source: z.string() }).nullable(),
  /** Rehearsal id → when the team last said it aloud. Missing: never. */
  rehearsed: z.record(slug, instant).optional(),
  largeType: z.boolean(),
  backupMonths: z.number().int().positive().max(600, 'not more than 600 months'),
});

export const emptyProfile = {
  procedureId: 'phaco',
  inTraining: null,
  casesBefore: {},
  ownCheckpoints: [],
  recordingsConsentAt: null,
  timingPlan: null,
  seriousRate: null,
  largeType: false,
  backupMonths: 12,
} satisfies z.input<typeof profileSchema>;

export type OwnCheckpoint = z.infer<typeof ownCheckpointSchema>;
export type Profile = z.infer<typeof profileSchema>;
