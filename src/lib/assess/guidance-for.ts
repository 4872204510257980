import type { Audit } from '../audit';
import { planDraft, safetyFactsOf, stepFactsOf } from '../rules';
import type { Guidance, Suggestion } from '../rules/types';
import { draftReminders } from '../words';
import type { Assessment } from './assessment';
import type { ReadRecord } from './from-reading';

/** What to read for the step suggested, in lines; `null` where no step is, or the step has no page. */
export function guidanceFor(
  audit: Audit,
  suggestion: Suggestion,
  { cases, lists }: ReadRecord,
  pages: readonly Guidance[],
): Assessment['guidance'] {
  const [stepId] = suggestion.steps;
  const page = pages.find((each) => each.procedureId === audit.procedure.id && each.step === stepId);
  if (!stepId || !page) return null;
  const safety = safetyFactsOf(
    cases,
    lists,
    audit.procedure,
    audit.steps.map((step) => step.stepId),
  );
  const facts = stepFactsOf(audit, cases, stepId, safety, lists);
  if (!facts) return null;
  const draft = planDraft(facts, page);
  return {
    checkpoints: draft.checkpoints.map((checkpoint) => checkpoint.look),
    reminders: draftReminders(draft),
    stop: [...draft.stop],
    drills: draft.drills.map((drill) => `${drill.where}, ${drill.minutes} minutes: ${drill.do}`),
  };
}
