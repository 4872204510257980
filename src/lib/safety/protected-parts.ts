import type { Case } from '../model';
import { safetyThresholds } from './thresholds';

/** Over cases in which it was looked for: a protected part not looked for is neither seen nor missed. */
export type ProtectedPartShare = { protectedPartId: string; seen: number; looked: number; share: number | null };

export type ProtectedPartFall = {
  protectedPartId: string;
  start: { seen: number; looked: number };
  window: { seen: number; looked: number };
  /** Cases fewer than the starting share would give. */
  missing: number;
};

export function protectedPartShares(cases: readonly Case[], protectedPartIds: readonly string[]): ProtectedPartShare[] {
  return protectedPartIds.map((protectedPartId) => {
    const answers = cases.flatMap((one) => {
      const seen = one.protectedSeen[protectedPartId];
      return seen === undefined ? [] : [seen];
    });
    const seen = answers.filter(Boolean).length;
    return { protectedPartId, seen, looked: answers.length, share: answers.length ? seen / answers.length : null };
  });
}

/**
 * Protected parts seen in a smaller share of window cases than of baseline cases, by two cases or more in twenty.
 * Nothing is said of a part that was not looked for in one of the two.
 */
export function protectedPartsFallen(
  start: readonly Case[],
  window: readonly Case[],
  protectedPartIds: readonly string[],
): ProtectedPartFall[] {
  const before = protectedPartShares(start, protectedPartIds);
  const slack = 1e-9; // 0.9 − 0.8 is a little under 0.1 in binary
  return protectedPartShares(window, protectedPartIds).flatMap((now, index) => {
    const then = before[index];
    if (!then || then.share === null || now.share === null) return [];
    const missing = then.share * now.looked - now.seen;
    const fallen =
      then.share - now.share >= safetyThresholds.protectedPartMissingShare - slack &&
      missing >= safetyThresholds.protectedPartMissingCases - slack;
    return fallen
      ? [
          {
            protectedPartId: now.protectedPartId,
            start: { seen: then.seen, looked: then.looked },
            window: { seen: now.seen, looked: now.looked },
            missing,
          },
        ]
      : [];
  });
}
