import type { Case } from '../../model';
import type { Expected } from '../../recording';
import { quantile } from '../../statistics';

/** So many cases timed here before playing may be fast between boundaries. */
const FROM_CASES = 5;
/** Of the usual gaps the middle eight in ten: beyond them one would often play past a boundary. */
const [EARLY, LATE] = [0.1, 0.9];

export type Edge = 'from' | 'to';

/**
 * For each boundary of a step, when it came after the boundary before it in the cases timed here. It sets the speed of
 * playing only; no length of it is shown. `null` below five timed cases.
 */
export function expectedBoundaries(
  cases: readonly Pick<Case, 'source' | 'stretches' | 'procedureId'>[],
  procedureId: string,
): Record<string, Expected> | null {
  const timed = cases.filter((one) => one.source.kind === 'timed' && one.procedureId === procedureId);
  if (timed.length < FROM_CASES) return null;
  const gaps = new Map<string, number[]>();
  for (const { stretches } of timed) {
    const boundaries = stretches
      .flatMap(({ kind, stepId, start, end }) =>
        kind === 'step' && stepId !== null && start !== null && end !== null
          ? [
              { key: boundaryKey(stepId, 'from'), at: start },
              { key: boundaryKey(stepId, 'to'), at: end },
            ]
          : [],
      )
      .sort((a, b) => a.at - b.at);
    boundaries.forEach(({ key, at }, index) => {
      const before = boundaries[index - 1];
      if (before) gaps.set(key, [...(gaps.get(key) ?? []), at - before.at]);
    });
  }
  return Object.fromEntries(
    [...gaps].map(([key, all]) => [key, { after: quantile(all, EARLY), until: quantile(all, LATE) }]),
  );
}

export const boundaryKey = (stepId: string, edge: Edge): string => `${stepId}:${edge}`;
