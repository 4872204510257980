import type { Audit } from '../audit/types';
import { rulesThresholds } from './thresholds';
import type { SafetyFacts, StepSafety, Suggestion } from './types';

/** The step a safety goal is suggested for; `null` when nothing asks for one. Most events first, then most recent. */
export function safetyFirst(
  audit: Audit,
  { steps, monitorSignalled, unreviewedElsewhere }: SafetyFacts,
): Suggestion | null {
  const asking = steps.filter(
    ({ seriousUnreviewed, seriousLast100 }) => seriousUnreviewed > 0 || seriousLast100 >= rulesThresholds.seriousTied,
  );
  const withAny = steps.filter(({ seriousLast100 }) => seriousLast100 > 0);
  const [first] = mostEvents(asking.length > 0 || !monitorSignalled ? asking : withAny);
  if (!first && !monitorSignalled && unreviewedElsewhere === 0) return null;
  const label = audit.steps.find(({ stepId }) => stepId === first?.stepId)?.label ?? first?.stepId;
  const because = [
    ...(first && label ? stepBecause(first, label) : []),
    ...(unreviewedElsewhere > 0
      ? [
          `${events(unreviewedElsewhere)} tied to no timed step ${unreviewedElsewhere === 1 ? 'waits' : 'wait'} for review.`,
        ]
      : []),
    ...(monitorSignalled ? ['Serious events are more frequent than the line set beforehand.'] : []),
  ];
  return { kind: 'safety', steps: first ? [first.stepId] : [], view: 'safety', also: [], because };
}

function mostEvents(steps: readonly StepSafety[]): StepSafety[] {
  const weight = ({ seriousUnreviewed, seriousLast100 }: StepSafety) => Math.max(seriousUnreviewed, seriousLast100);
  return [...steps].sort(
    (a, b) => weight(b) - weight(a) || (a.casesSinceLatest ?? Infinity) - (b.casesSinceLatest ?? Infinity),
  );
}

function stepBecause({ seriousUnreviewed, seriousLast100 }: StepSafety, label: string): string[] {
  return [
    ...(seriousUnreviewed > 0
      ? [`${label}: ${events(seriousUnreviewed)} ${seriousUnreviewed === 1 ? 'waits' : 'wait'} for review.`]
      : []),
    ...(seriousLast100 >= rulesThresholds.seriousTied
      ? [`${label}: ${events(seriousLast100)} in the last 100 answered cases.`]
      : []),
  ];
}

const events = (count: number) => `${count} serious event${count === 1 ? '' : 's'}`;
