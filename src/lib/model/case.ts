import { z } from 'zod';
import { eventSchema } from './event';
import { caseId, importId, instant, listId, slug } from './id';
import { clockSeconds, countOnList, placeOnList, rowNumber, sequence, stepSeconds, value, version } from './number';
import { code, label, note, ours } from './written';

/** One unbroken interval of a step. Seconds; the clock readings are `null` where only a length is known. */
export const stretchSchema = z.strictObject({
  /** `null` only for waiting that lies between steps. */
  stepId: slug.nullable(),
  start: clockSeconds.nullable(),
  end: clockSeconds.nullable(),
  seconds: z.number().positive().max(7200),
  /** `protected`: a part never to be shortened, outside step time. */
  kind: z.enum(['step', 'waiting', 'protected']),
  /** Waiting reason id, or protected part id. */
  reason: ours(z.string(), 'an id of the procedure').nullable(),
});

export const handsSchema = z.enum(['mine', 'someone-else', 'taken-over', 'shared']);

export const factValueSchema = z.union([ours(z.string(), 'the id of a level'), value, z.boolean()]);

/** Fixed, so that reasons can be counted in every result. */
export const leftOutReasons = [
  'not-the-usual-operation',
  'recording-incomplete',
  'timing-unreliable',
  'not-my-hands',
  'complication-outside-the-step',
  'other',
] as const;

export const caseSchema = z.strictObject({
  id: caseId,
  /** The surgeon's own code, never a patient's. Unique in the record. */
  code: code(z.string().min(1).max(40)),
  procedureId: slug,
  listId: listId.nullable(),
  /** Place in the list, from 1. */
  position: placeOnList.nullable(),
  /** Order in time within the record, from 1; the order of arrival where nothing better is known. */
  sequence,
  /** false: the file had no order, so nothing over time is computed from it. */
  orderKnown: z.boolean(),
  /** Facts of the eye as entered; a fact not in here was not entered. */
  facts: z.record(slug, factValueSchema),
  /** Facts changed after times were seen; both values are kept. */
  factChanges: z.array(
    z.strictObject({
      factId: slug,
      before: factValueSchema.nullable(),
      after: factValueSchema.nullable(),
      at: instant,
    }),
  ),
  hands: z.strictObject({ whole: handsSchema, steps: z.record(slug, handsSchema) }),
  stretches: z.array(stretchSchema),
  /** Times a step was returned to, where the source gave the count itself (otherwise counted from stretches). */
  returnsNoted: z.record(slug, countOnList),
  /** `null`: not answered. `[]`: answered, none. */
  events: z.array(eventSchema).nullable(),
  /** Protected part id → seen on the recording. A protected part not in here was not looked for. */
  protectedSeen: z.record(slug, z.boolean()),
  /** Which eye, where the surgeon wants it kept. Missing: not said. */
  side: z.enum(['right', 'left']).optional(),
  /** A line of the surgeon's own, of a step or of the whole case. */
  remark: z.strictObject({ stepId: slug.nullable(), text: note(z.string().min(1).max(300)) }).optional(),
  energy: z.strictObject({ value: value.nonnegative(), unit: label(z.string()) }).nullable(),
  recording: z
    .strictObject({
      size: z.number().int().positive(),
      fingerprint: ours(z.string(), 'a hash'),
      label: label(z.string()).nullable(),
    })
    .nullable(),
  /** Timed once more in the same recording, the first marks hidden. Missing: never. Step id → step time in seconds. */
  timedAgain: z
    .array(z.strictObject({ at: instant, stepSeconds: z.record(slug, stepSeconds) }))
    .max(20)
    .optional(),
  source: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('typed') }),
    z.strictObject({ kind: z.literal('file'), importId, row: rowNumber }),
    z.strictObject({ kind: z.literal('timed') }),
    z.strictObject({ kind: z.literal('by-hand') }),
  ]),
  leftOut: z.strictObject({ reason: z.enum(leftOutReasons), timesSeen: z.boolean(), at: instant }).nullable(),
  /** Its times could be seen while it was left out: whatever is done with it later, they have been seen. */
  timesSeenWhileLeftOut: z.literal(true).optional(),
  /** A complaint, claim or inquiry: read-only until lifted with a reason. */
  keptAsItIs: z.strictObject({ since: instant, why: note(z.string(), 300) }).nullable(),
  /** Part of an invented surgeon's record: one action removes it. */
  invented: z.boolean().default(false),
  version,
  /** What was changed and when, in words; shown on the case page. */
  history: z.array(z.strictObject({ at: instant, what: note(z.string()) })),
});

/** What intake makes: a case before the store has given it ids. `list` names the list within the file. */
export const newCaseSchema = caseSchema
  .omit({
    id: true,
    listId: true,
    source: true,
    version: true,
    history: true,
    leftOut: true,
    timesSeenWhileLeftOut: true,
    timedAgain: true,
    keptAsItIs: true,
    factChanges: true,
    invented: true,
  })
  .extend({ list: label(z.string()).nullable(), row: rowNumber });

export type Stretch = z.infer<typeof stretchSchema>;
export type Hands = z.infer<typeof handsSchema>;
export type FactValue = z.infer<typeof factValueSchema>;
export type LeftOutReason = (typeof leftOutReasons)[number];
export type Case = z.infer<typeof caseSchema>;
export type NewCase = z.infer<typeof newCaseSchema>;
