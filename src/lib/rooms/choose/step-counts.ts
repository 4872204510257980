import type { StepAudit } from '../../audit';
import type { Case, Procedure, Step } from '../../model';
import { stepEventTally } from '../../safety';
import { counted, inSentence, listed, prose } from '../../format';
import { stepEventWords } from '../../words';

/** A sentence with its number, and the page on how that is made. */
export type StepCount = { sentence: string; how: 'returned-to' | 'waiting' | 'events' | 'step-time' };

/** Returned to, waiting, events and protected parts of a step, a sentence each. `shown`: the cases of the audit. */
export function stepCounts(step: StepAudit, known: Step, shown: readonly Case[], procedure: Procedure): StepCount[] {
  const reason = procedure.waitingReasons.find((each) => each.id === step.waitingReason)?.label ?? step.waitingReason;
  return [
    { how: 'returned-to', sentence: returnedToSentence(step.returnedTo) },
    {
      how: 'waiting',
      sentence:
        step.waitingPerCase > 0
          ? `Waiting in or before this step: ${prose(step.waitingPerCase)} a case${reason ? `, mostly ${inSentence(reason)}` : ''}. It is not counted as step time, and part of it is checking.`
          : shown.some(({ stretches }) => stretches.some(({ kind }) => kind === 'waiting'))
            ? 'No waiting was noted in this step.'
            : 'Waiting was not noted in any of these cases.',
    },
    {
      how: 'events',
      sentence: stepEventWords(stepEventTally(shown, step.stepId)),
    },
    ...(known.protectedParts.length > 0
      ? [
          {
            how: 'step-time' as const,
            sentence: `Outside its time, and never shortened: ${listed(known.protectedParts.map(({ label }) => inSentence(label)))}.`,
          },
        ]
      : []),
  ];
}

/** A sheet with one time per step cannot show it: not recorded is not "never". */
function returnedToSentence(returnedTo: StepAudit['returnedTo']): string {
  if (returnedTo === null)
    return 'Whether it was returned to is not known: one time a step does not show it, and no count was noted.';
  return returnedTo.cases === 0
    ? `Returned to in none of ${counted(returnedTo.of, 'case')}.`
    : `Returned to in ${returnedTo.cases} of ${counted(returnedTo.of, 'case')}. The end point was then not reached the first time.`;
}
