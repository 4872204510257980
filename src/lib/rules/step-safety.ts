import type { Case, Event, ListRecord, Procedure } from '../model';
import { isSerious, sameStepAs } from '../safety';
import { rulesThresholds } from './thresholds';
import type { SafetyFacts, StepSafety } from './types';

/**
 * Events tied to each of some steps. An event tied to a part counts for the merged step that stands for it, and the
 * other way round: safety is the last place where an event may be lost to a label.
 *
 * @param cases all of the procedure, in any order, left-out ones too: leaving a case out never hides its event.
 * @param lists whose untimed operations count for what waits for review.
 */
export function safetyFactsOf(
  cases: readonly Case[],
  lists: readonly ListRecord[],
  procedure: Procedure,
  stepIds: readonly string[],
  monitorSignalled = false,
): SafetyFacts {
  const ordered = [...cases].sort((a, b) => a.sequence - b.sequence);
  const answered = ordered.filter(({ events }) => events !== null).slice(-rulesThresholds.lastAnswered);
  const untimed = lists.flatMap(({ untimedEvents }) => untimedEvents);
  const ids = stepIds.map((stepId) => ({ stepId, same: sameStepAs(stepId, procedure) }));
  const tied = (event: Event, same: ReadonlySet<string>) => event.stepId !== null && same.has(event.stepId);
  const waiting = [...ordered.flatMap(({ events }) => events ?? []), ...untimed].filter(
    (event) => isSerious(event) && event.reviewed === null,
  );
  const steps = ids.map(({ stepId, same }): StepSafety => {
    const latest = ordered.findLastIndex(({ events }) => events?.some((event) => tied(event, same)));
    return {
      stepId,
      seriousUnreviewed: waiting.filter((event) => tied(event, same)).length,
      seriousLast100: answered
        .flatMap(({ events }) => events ?? [])
        .filter((event) => isSerious(event) && tied(event, same)).length,
      casesSinceLatest: latest === -1 ? null : ordered.length - 1 - latest,
      kinds: [
        ...new Set(
          [...waiting, ...[...ordered].reverse().flatMap(({ events }) => events ?? [])]
            .filter((event) => tied(event, same))
            .map(({ kind }) => kind),
        ),
      ],
    };
  });
  const elsewhere = waiting.filter((event) => !ids.some(({ same }) => tied(event, same)));
  return { steps, monitorSignalled, unreviewedElsewhere: elsewhere.length };
}
