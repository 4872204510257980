import { z } from 'zod';
import { compareJsonSchema } from './compare-json';
import { eventsJsonSchema } from './events-json';
import { resultJsonSchema } from './result-json';

/** One thing that was not taken: where, what, why. */
export const leftOutSchema = z.strictObject({
  file: z.string().nullable().describe('The file, and of a workbook its sheet: times.xlsx [Sheet1].'),
  row: z.int().positive().nullable().describe('Counted from 1, the heading being row 1, as a spreadsheet shows it.'),
  column: z.string().nullable(),
  value: z.string().nullable(),
  why: z.string(),
});

const interval = z.tuple([z.number(), z.number()]).nullable();
const ratio = { low: z.number(), high: z.number() };

const stepSchema = z.strictObject({
  step: z.string(),
  label: z.string(),
  n: z.int(),
  median_s: z.number().nullable().describe('As recorded, as is p20_s.'),
  p20_s: z.number().nullable(),
  adjusted: z
    .strictObject({ median_s: z.number(), p20_s: z.number() })
    .nullable()
    .describe('Adjusted for the eye, on the scale on which the median is the recorded one; null: nothing taken out.'),
  difference_s: z
    .number()
    .nullable()
    .describe('Median less 20th percentile as recorded; told apart where a fact of the eye shows for the step.'),
  difference_same_eyes_s: z.number().nullable(),
  difference_with_eye_s: z.number().nullable(),
  difference_interval_s: interval.describe(
    'Of the part by which steps are ranked: among the same kind of eye where told apart.',
  ),
  difference_cannot: z
    .strictObject({ code: z.string(), because: z.string() })
    .nullable()
    .describe('Why no difference is said; null where one is.'),
  spread: z.number().nullable(),
  spread_interval: interval,
  share: z.number().nullable(),
  went_back_per_case: z.number().nullable(),
  waiting_s: z.number().nullable().describe('null where no waiting is noted in the whole record: it was not asked.'),
  over_time: z.strictObject({ ratio_per_20: z.number(), ...ratio }).nullable(),
  reference: z.strictObject({ n: z.int(), readers: z.int(), ratio: z.number(), ...ratio }).nullable(),
  events: z
    .strictObject({
      n: z.int().nullable(),
      may_belong: z.int(),
      answered: z.int(),
      upper95: z.number().nullable(),
    })
    .describe(
      'may_belong: further cases with an event tied to no step; upper95 counts them, and is null where no case is answered with none.',
    ),
  first: z
    .strictObject({
      seconds: z.number().nullable(),
      spread: z.number().nullable(),
      reference: z.number().nullable(),
    })
    .describe('Share of resamples in which the step comes first, by view.'),
});

const eyesGroup = z.strictObject({
  n: z.int(),
  lists: z.int(),
  median_s: z.number(),
  p20_s: z.number().nullable(),
});

/** A kind of eye in which a step takes longer: the eyes with it and those compared, as recorded; why, in numbers. */
const eyesSchema = z.strictObject({
  step: z.string(),
  label: z.string(),
  with: eyesGroup,
  without: eyesGroup,
  because: z.array(z.strictObject({ code: z.string(), numbers: z.record(z.string(), z.number()) })),
});

/** One line of `--json`. Seconds; shares 0..1; what is unknown is `null`, never left out. */
export const assessmentSchema = z.strictObject({
  format: z.literal('next-twenty/assessment/2'),
  file: z.string().nullable().describe('As it was named; the names of several joined by " + ".'),
  procedure: z.string(),
  cases: z.int(),
  lists: z.int().nullable(),
  seed: z.int(),
  left_out: z.array(leftOutSchema),
  events: eventsJsonSchema,
  steps: z.array(stepSchema),
  patterns: z.array(
    z.strictObject({
      step: z.string(),
      label: z.string(),
      n_with: z.int(),
      n_without: z.int(),
      ratio: z.number(),
      ...ratio,
    }),
  ),
  suggestion: z.strictObject({
    kind: z.string(),
    steps: z.array(z.string()),
    view: z.string().nullable(),
    because: z.array(z.string()),
    eyes: eyesSchema.nullable(),
  }),
  guidance: z
    .strictObject({
      checkpoints: z.array(z.string()),
      reminders: z.array(z.string()),
      stop: z.array(z.string()),
      drills: z.array(z.string()),
    })
    .nullable(),
  result: resultJsonSchema.nullable().optional().describe('With --goal only.'),
  compare: compareJsonSchema.optional().describe('With --compare only.'),
});

/** The line of a file in which nothing could be assessed. */
export const problemsSchema = z.strictObject({
  format: z.literal('next-twenty/problems/1'),
  file: z.string(),
  problems: z.array(leftOutSchema).min(1),
});

export type Assessment = z.infer<typeof assessmentSchema>;
export type Problems = z.infer<typeof problemsSchema>;
export type EyesJson = z.infer<typeof eyesSchema>;

/** JSON Schema (draft 7) of one line of `--json`: an assessment, or why there is none. */
export const lineSchema = () => z.toJSONSchema(z.union([assessmentSchema, problemsSchema]), { target: 'draft-7' });
