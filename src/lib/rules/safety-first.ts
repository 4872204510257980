import type { SuggestionReason } from './reasons';
import { rulesThresholds } from './thresholds';
import type { SafetyFacts, StepSafety, Suggestion } from './types';

/** The step a safety goal is suggested for; `null` when nothing asks for one. Most events first, then most recent. */
export function safetyFirst({ steps, monitorSignalled, unreviewedElsewhere }: SafetyFacts): Suggestion | null {
  const asking = steps.filter(
    ({ seriousUnreviewed, seriousLast100 }) => seriousUnreviewed > 0 || seriousLast100 >= rulesThresholds.seriousTied,
  );
  const withAny = steps.filter(({ seriousLast100 }) => seriousLast100 > 0);
  const [first] = mostEvents(asking.length > 0 || !monitorSignalled ? asking : withAny);
  if (!first && !monitorSignalled && unreviewedElsewhere === 0) return null;
  const because: SuggestionReason[] = [
    ...(first ? stepBecause(first) : []),
    ...(unreviewedElsewhere > 0
      ? [{ code: 'unreviewed-elsewhere', numbers: { events: unreviewedElsewhere } } as const]
      : []),
    ...(monitorSignalled ? [{ code: 'monitor', numbers: {} } as const] : []),
  ];
  return { kind: 'safety', steps: first ? [first.stepId] : [], view: 'safety', also: [], because };
}

function mostEvents(steps: readonly StepSafety[]): StepSafety[] {
  const weight = ({ seriousUnreviewed, seriousLast100 }: StepSafety) => Math.max(seriousUnreviewed, seriousLast100);
  return [...steps].sort(
    (a, b) => weight(b) - weight(a) || (a.casesSinceLatest ?? Infinity) - (b.casesSinceLatest ?? Infinity),
  );
}

function stepBecause({ stepId, seriousUnreviewed, seriousLast100 }: StepSafety): SuggestionReason[] {
  return [
    ...(seriousUnreviewed > 0
      ? [{ code: 'serious-unreviewed', stepId, numbers: { events: seriousUnreviewed } } as const]
      : []),
    ...(seriousLast100 >= rulesThresholds.seriousTied
      ? [{ code: 'serious-tied', stepId, numbers: { events: seriousLast100 } } as const]
      : []),
  ];
}
