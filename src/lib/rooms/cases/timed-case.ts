import type { Case, Event, Procedure } from '../../model';
import { marksOf, stretchesOf, type TimingDraft } from '../../recording';
import { markProblemWords } from '../../words/recording';
import type { FieldError } from '../forms/fields';
import type { TypedFacts } from './typed-case';
import type { TypedTimes } from './typed-times';
import { timedSteps } from './typed-times';

export type TimedCase = {
  /** The first page with what was seen of hands and events since. */
  typed: TypedFacts;
  times: TypedTimes;
  recording: Case['recording'];
  /** Checkpoint → answer, given before the lengths were shown. */
  answers: ReturnType<typeof marksOf>['answers'];
};

/**
 * A timing on its way as a case, or what keeps it from being one. Steps, parts and reasons that the procedure no longer
 * has are named, not dropped: it may have been edited while the timing waited.
 */
export function timedCase(
  draft: TimingDraft,
  typed: TypedFacts,
  procedure: Procedure,
): { timed: TimedCase; errors: FieldError[] } {
  const marks = marksOf(draft.log);
  const steps = timedSteps(procedure);
  const label = (id: string | null) =>
    id === null ? 'Waiting between steps' : (steps.find((step) => step.id === id)?.label ?? id);
  const merge = Object.fromEntries(steps.flatMap(({ id, mergeOf }) => (mergeOf ? [[id, mergeOf]] : [])));
  const { stretches, problems } = stretchesOf(marks, merge);
  const errors = problems.map(({ row, why }) => ({
    field: 'steps',
    message: markProblemWords({ why }, label(marks.rows.find((one) => one.row === row)?.stepId ?? null)),
  }));
  const known = new Set(steps.map(({ id }) => id));
  for (const { stepId } of stretches)
    if (stepId !== null && !known.has(stepId))
      errors.push({
        field: 'steps',
        message: `${stepId}: the procedure takes no times for this step any more. Remove its marks.`,
      });
  const parts = new Set(steps.flatMap(({ protectedParts }) => protectedParts.map(({ id }) => id)));
  const reasons = new Set(procedure.waitingReasons.map(({ id }) => id));
  const kinds = new Set(procedure.eventKinds.map(({ id }) => id));
  const events = marks.events.flatMap((event): Event[] =>
    kinds.has(event.kind) ? [{ ...event, noticed: 'during', reviewed: null }] : [],
  );
  return {
    errors,
    timed: {
      typed: {
        ...typed,
        events: [...typed.events, ...events],
        hands: { ...typed.hands, steps: { ...typed.hands.steps, ...marks.hands } },
      },
      times: {
        stretches: stretches.map((one) => ({
          ...one,
          reason: one.reason === null || reasons.has(one.reason) || parts.has(one.reason) ? one.reason : null,
        })),
        returnsNoted: {},
        protectedSeen: Object.fromEntries(Object.entries(marks.seen).filter(([id]) => parts.has(id))),
      },
      recording: draft.recording && {
        size: draft.recording.size,
        fingerprint: draft.recording.fingerprint,
        label: null,
      },
      answers: marks.answers,
    },
  };
}
