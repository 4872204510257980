import { z } from 'zod';
import { slug } from '../../model';

/** What a checkpoint answers: the patterns a record can show for a step. */
export const FITS = [
  'longer',
  'varies',
  'went-back',
  'hard-eyes',
  'late-in-list',
  'after-earlier',
  'waiting',
  'over-time',
  'two-humps',
  'kept-parts',
] as const;

/** Where a drill is done: never on a patient. */
export const DRILL_PLACES = ['wet lab', 'simulation eye', 'video', 'desk'] as const;

const line = z.string().trim().min(1);

const checkpointSchema = z.strictObject({
  id: slug,
  /** What can be seen in the recording. */
  look: line,
  /** One sentence. */
  why: line,
  fits: z.array(z.enum(FITS)).min(1),
});

const drillSchema = z.strictObject({
  id: slug,
  where: z.enum(DRILL_PLACES),
  minutes: z.number().int().positive().max(120),
  do: line,
});

const sourceSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('published'), ref: line }),
  z.strictObject({ kind: z.literal('common-practice') }),
  z.strictObject({ kind: z.literal('from-memory'), ref: line }),
]);

/** Head of a page of written guidance. Strict: a field misspelt is a field lost. */
export const guidanceHeadSchema = z.strictObject({
  step: slug,
  title: line,
  aim: line,
  keep: z.array(line).min(1),
  checkpoints: z.array(checkpointSchema).min(5).max(7),
  reminders: z.array(line).min(2),
  stop: z.array(line).min(1),
  earlier: z.array(slug),
  drills: z.array(drillSchema).min(2),
  sources: z.array(sourceSchema).min(1),
  /** Role and date of the practising surgeon who read it; null until someone has. */
  reviewed: line.nullable(),
});
