import type { Case, Procedure } from '../model';
import { isMine } from './step-time';

/** In order of time; equal sequence numbers keep the order of their ids, so that nothing depends on the order of arrival. */
export function inOrder(cases: readonly Case[]): Case[] {
  return [...cases].sort((a, b) => a.sequence - b.sequence || a.id.localeCompare(b.id, 'en', { numeric: true }));
}

/** The cases that count for this procedure: not left out, with at least one step by own hands. In order of time. */
export function countedCases(cases: readonly Case[], procedure: Procedure): Case[] {
  return inOrder(
    cases.filter(
      (case_) =>
        case_.procedureId === procedure.id &&
        case_.leftOut === null &&
        case_.stretches.some(({ kind, stepId }) => kind === 'step' && stepId !== null && isMine(case_, stepId)),
    ),
  );
}

/** The latest `shown` of some cases in order of time. */
export function latestShown(cases: readonly Case[], shown = 100): Case[] {
  return cases.slice(Math.max(0, cases.length - shown));
}
