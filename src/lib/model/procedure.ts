import { z } from 'zod';
import { slug } from './id';
import { label } from './written';

/** A part of a step that is never shortened; taken out of step time and counted as seen or not. */
export const protectedPartSchema = z.strictObject({ id: slug, label: label(z.string().min(1)) });

export const stepSchema = z.strictObject({
  id: slug,
  label: label(z.string().min(1)),
  /** One visible event each: where the clock starts and stops on the recording. */
  starts: label(z.string().min(1)),
  ends: label(z.string().min(1)),
  synonyms: z.array(label(z.string().min(1))),
  /** Steps that can make this one longer, nearest first. */
  earlier: z.array(slug),
  optional: z.boolean(),
  notToShorten: z.boolean(),
  protectedParts: z.array(protectedPartSchema),
  /** Where one clock often covers several steps, the ids of those it stands for. */
  mergeOf: z.array(slug).optional(),
  /** A retired step keeps its timings but takes no new ones. */
  retired: z.boolean().default(false),
});

export const factLevelSchema = z.strictObject({
  id: slug,
  label: label(z.string().min(1)),
  key: z.string().length(1),
  /** What people write for it in their own files ("brunescent"). */
  synonyms: z.array(label(z.string().min(1))).optional(),
});

/** A fact of the eye: a thing that legitimately changes times, entered before the times are seen. */
export const eyeFactSchema = z.strictObject({
  id: slug,
  label: label(z.string().min(1)),
  kind: z.enum(['yes-no', 'choice', 'number']),
  levels: z.array(factLevelSchema).optional(),
  /** One key in the ten-second entry (yes-no facts of "anything else"). */
  key: z.string().length(1).optional(),
  unit: label(z.string()).optional(),
  synonyms: z.array(label(z.string().min(1))).default([]),
  /** `row`: one field of its own; `more`: one letter under "anything else"; `file`: accepted from files, never asked. */
  asked: z.enum(['row', 'more', 'file']).default('row'),
});

/** Why the surgeon could not go on. `synonyms`: what people write for it in their own files ("change of tubing"). */
export const waitingReasonSchema = z.strictObject({
  id: slug,
  label: label(z.string().min(1)),
  synonyms: z.array(label(z.string().min(1))).optional(),
});

export const procedureSchema = z
  .strictObject({
    id: slug,
    name: label(z.string().min(1)),
    synonyms: z.array(label(z.string())).default([]),
    steps: z.array(stepSchema).min(2),
    /** In the order in which they enter the adjustment. */
    facts: z.array(eyeFactSchema),
    waitingReasons: z.array(waitingReasonSchema),
    eventKinds: z.array(z.strictObject({ id: slug, label: label(z.string().min(1)) })),
    /** shipped with the tool, or written by the surgeon in Settings. */
    origin: z.enum(['shipped', 'own']).default('shipped'),
  })
  .superRefine((procedure, context) => {
    const ids = procedure.steps.map((step) => step.id);
    if (new Set(ids).size !== ids.length)
      context.addIssue({ code: 'custom', message: 'two steps with one id', path: ['steps'] });
    procedure.steps.forEach((step, index) => {
      for (const id of [...step.earlier, ...(step.mergeOf ?? [])])
        if (!ids.includes(id))
          context.addIssue({ code: 'custom', message: `unknown step "${id}"`, path: ['steps', index] });
    });
  });

export type Step = z.infer<typeof stepSchema>;
export type EyeFact = z.infer<typeof eyeFactSchema>;
export type Procedure = z.infer<typeof procedureSchema>;
