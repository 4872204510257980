import { aimedEyesOf } from '../audit';
import { planSource, startInput, type Starting } from '../rooms/plan/plan-source';
import type { PlanSource } from '../rooms/plan/plan-view';
import { procedureOf, type SurgeonRecord, type Measure } from '../model';
import { keptText } from '../rooms/forms/kept-text';
import { guidanceOf } from '../rooms/choose/step-view';
import { startGoalInSlices } from '../practice';
import { z } from 'zod';
import { shownAudit } from './audits';
import { loadGuidance } from './content';
import { othersMeanwhile } from './in-turns';
import { keptAnswers, recordKey } from './kept-answers';
import { readRecord } from './record';
import type { Store } from './storage/port';

/** A step and its reason, written down before the views were opened; waits here until the plan is set. */
const ownReasonSchema = z.object({ procedure: z.string(), step: z.string(), reason: z.string() });
export type OwnReason = z.infer<typeof ownReasonSchema>;
const OWN_REASON = 'plan-own-reason';

export async function keepOwnReason(store: Store, own: OwnReason): Promise<void> {
  await store.saveDraft(OWN_REASON, JSON.stringify(own));
}

export async function dropOwnReason(store: Store): Promise<void> {
  await store.dropDraft(OWN_REASON);
}

async function ownReasonFor(store: Store, procedureId: string, stepId: string): Promise<string | null> {
  const own = keptText(ownReasonSchema, await store.draft(OWN_REASON));
  return own?.step === stepId && own.procedure === procedureId ? own.reason : null;
}

// Fixing a start resamples lists a thousand times: once for the page that is opened, and not again when it is sent.
const sources = keptAnswers<PlanSource | null>(4);

/** `eyes`: fact and level, `pupil:small`; `null` for all eyes. */
export type PlanAsked = {
  step: string;
  procedure: string | null;
  view: string | null;
  own: boolean;
  eyes: string | null;
};

/** What the plan page of a step rests on, from the record as it is now; `source` null: no time of this step. */
export async function readPlanSource(
  store: Store,
  asked: PlanAsked,
): Promise<{
  record: SurgeonRecord;
  label: string | null;
  retired: boolean;
  /** The eyes that were asked for are none of this procedure. */
  noSuchEyes?: true;
  source: PlanSource | null;
}> {
  const record = await readRecord(store);
  const procedure = procedureOf(record, asked.procedure ?? record.profile.procedureId);
  const step = procedure.steps.find(({ id }) => id === asked.step);
  if (!step) return { record, label: null, retired: false, source: null };
  if (step.retired) return { record, label: step.label, retired: true, source: null };
  const [fact = '', level = ''] = asked.eyes?.split(':') ?? [];
  const eyes = asked.eyes === null ? null : aimedEyesOf(procedure, fact, level);
  if (asked.eyes !== null && !eyes)
    return { record, label: step.label, retired: false, noSuchEyes: true, source: null };
  const { audit, cases } = await shownAudit(record, procedure);
  await othersMeanwhile.pause();
  const ownReason = asked.own ? await ownReasonFor(store, procedure.id, asked.step) : null;
  const key = JSON.stringify([recordKey(record), asked, procedure.id, ownReason]);
  const source = await sources(key, () =>
    planSource(
      {
        audit,
        record,
        procedure,
        cases,
        stepId: asked.step,
        guidance: guidanceOf(loadGuidance(), procedure, asked.step),
        eyes,
        view: asked.view,
        ownReason,
        query: asked.procedure ? `?procedure=${procedure.id}` : '',
      },
      startInTurns,
    ),
  );
  return { record, label: step.label, retired: false, source };
}

/** Other requests are answered while a start is fixed. */
const startInTurns: Starting = {
  start: (input) => startGoalInSlices(input, othersMeanwhile),
  pause: othersMeanwhile.pause,
};

/** The start of the plan that was sent, by the measure it names. */
export function startOf(
  record: SurgeonRecord,
  source: PlanSource,
  measure: Measure,
  windowLength: 20 | 40,
): ReturnType<Starting['start']> {
  return startInTurns.start(
    startInput(record, source.procedure, source.step.id, measure, source.chosenBy, source.eyes, windowLength),
  );
}
