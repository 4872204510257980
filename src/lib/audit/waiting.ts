import type { Case, Procedure } from '../model';
import { waitingOfCase } from './step-time';

/** The waiting reason that took most seconds, in words; `null` where no reason was noted. */
export function commonestReason(
  cases: readonly Case[],
  procedure: Procedure,
  stepIds: readonly string[] | 'all',
): string | null {
  const seconds = new Map<string, number>();
  for (const case_ of cases)
    for (const { kind, reason, stepId, seconds: length } of case_.stretches)
      if (kind === 'waiting' && reason && (stepIds === 'all' || (stepId !== null && stepIds.includes(stepId))))
        seconds.set(reason, (seconds.get(reason) ?? 0) + length);
  const [most] = [...seconds].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1));
  return most ? (procedure.waitingReasons.find(({ id }) => id === most[0])?.label ?? most[0]) : null;
}

/** All waiting of the record: seconds a case, the reason that took most, and in how many cases any was noted. */
export function waitingOverall(
  cases: readonly Case[],
  procedure: Procedure,
): { perCase: number; reason: string | null; n: number } {
  const seconds = cases.map(waitingOfCase);
  const total = seconds.reduce((sum, value) => sum + value, 0);
  return {
    perCase: cases.length === 0 ? 0 : total / cases.length,
    reason: commonestReason(cases, procedure, 'all'),
    n: seconds.filter((value) => value > 0).length,
  };
}
