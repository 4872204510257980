import { z } from 'zod';
import { factValueSchema } from './case';
import { slug } from './id';
import { stepSeconds, value } from './number';
import { label } from './written';

/** A surgeon needs so many cases before a median says anything of a step; below it nothing goes out or comes in. */
export const PACKET_LEAST = 10;
/** More than a working life of one step-timed surgeon. */
const PACKET_MOST = 20_000;

const named = { id: slug, label: label(z.string().min(1).max(200)) };

/**
 * Cases of one surgeon for a colleague's reference set, as a file: no names, dates, codes, places, events or notes.
 * `steps` and `facts` say what the ids mean, so that the colleague can see whether the clocks are the same.
 */
export const referencePacketSchema = z.strictObject({
  format: z.literal('next-twenty/reference-packet/1'),
  procedure: z.strictObject({ id: slug, name: label(z.string().min(1).max(200)) }),
  steps: z
    .array(
      z.strictObject({
        ...named,
        /** Where the clock of the step starts and stops. */
        starts: label(z.string().min(1).max(400)),
        ends: label(z.string().min(1).max(400)),
      }),
    )
    .max(300),
  facts: z.array(z.strictObject({ ...named, levels: z.array(z.strictObject(named)).max(60) })).max(200),
  cases: z
    .array(
      z.strictObject({
        /** Cases of one list have the same number, which says nothing else. */
        list: value.int().positive().nullable(),
        facts: z.record(slug, factValueSchema),
        /** Step id → step time in seconds. */
        stepSeconds: z.record(slug, stepSeconds),
      }),
    )
    .min(PACKET_LEAST)
    .max(PACKET_MOST),
});

export type ReferencePacket = z.infer<typeof referencePacketSchema>;
