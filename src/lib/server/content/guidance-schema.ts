import { z } from 'zod';
import { slug } from '../../model';
import { isFit, type EyeFit, type Fit } from '../../rules/fits';

/** Where a drill is done: never on a patient. */
export const DRILL_PLACES = ['wet lab', 'simulation eye', 'video', 'desk'] as const;

export const line = z.string().trim().min(1);

const fit = z.custom<Fit>((value) => typeof value === 'string' && isFit(value), {
  error: ({ input }) => `"${String(input)}" is no pattern, and no eye:…, event:… or part:…`,
});
export const eyeFit = z.custom<EyeFit>(
  (value) => typeof value === 'string' && isFit(value) && value.startsWith('eye:'),
  {
    error: ({ input }) => `"${String(input)}" is not a kind of eye (eye:…)`,
  },
);

const checkpointSchema = z.strictObject({
  id: slug,
  /** What can be seen in the recording. */
  look: line,
  /** One sentence. */
  why: line,
  fits: z.array(fit).min(1),
  /** Kinds of eye in which it would be wrong. */
  notFor: z.array(eyeFit).default([]),
});

const drillSchema = z.strictObject({
  id: slug,
  where: z.enum(DRILL_PLACES),
  minutes: z.number().int().positive().max(120),
  do: line,
  /** What counts as passed, as a rule three in a row. */
  passed: line,
  fits: z.array(fit).default([]),
});

export const sourceSchema = z.discriminatedUnion('kind', [
  z.strictObject({ mark: z.string().regex(/^p\d$/), kind: z.literal('published'), ref: line }),
  z.strictObject({ mark: z.literal('c'), kind: z.literal('common-practice') }),
  z.strictObject({ mark: z.string().regex(/^m\d$/), kind: z.literal('from-memory'), ref: line }),
]);

/** A blank table for paper: settings differ from machine to machine, so the page gives the questions and no values. */
const worksheetSchema = z.strictObject({
  title: line,
  lead: line,
  columns: z.array(line).min(2),
  rows: z.array(line).min(1),
});

/** Head of a page of written guidance. Strict: a misspelt field is a lost field. */
export const guidanceHeadSchema = z.strictObject({
  step: slug,
  title: line,
  aim: line,
  /** Parts and checks that are never shortened. */
  protectedParts: z.array(line).min(1),
  checkpoints: z.array(checkpointSchema).min(5).max(12),
  reminders: z.array(line).min(2),
  stop: z.array(line).min(1),
  earlier: z.array(slug),
  drills: z.array(drillSchema).min(2),
  sources: z.array(sourceSchema).min(1),
  worksheet: worksheetSchema.nullable().default(null),
  /** Role and date of the practising surgeon who read it; null until someone has. */
  reviewed: line.nullable(),
});

export type GuidanceHead = z.infer<typeof guidanceHeadSchema>;
