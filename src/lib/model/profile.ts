import { z } from 'zod';
import { instant, slug } from './id';
import { countOfCases, placeOnList } from './number';
import { label, note, ours } from './written';

export const ownCheckpointSchema = z.strictObject({
  id: ours(z.string(), 'given here'),
  procedureId: slug,
  stepId: slug,
  look: note(z.string().min(1)),
  /** Markdown. */
  text: note(z.string()),
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
  seriousRate: z.strictObject({ rate: z.number().positive().max(0.5), source: label(z.string()) }).nullable(),
  /** Rehearsal id → when the team last said it aloud. Missing: never. */
  rehearsed: z.record(slug, instant).optional(),
  /** Bits of text that looked like a person and were said to be none; not asked about again. Missing: none. */
  notPersons: z
    .array(ours(z.string().min(1).max(200), 'the answer to that very question'))
    .max(1000)
    .optional(),
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
