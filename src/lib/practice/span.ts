import { inOrder } from '../audit';
import type { Case } from '../model';

/** The cases with these ids that are still in the record and not left out, in order of time. */
export function casesWithIds(cases: readonly Case[], ids: readonly string[]): Case[] {
  const wanted = new Set(ids);
  return inOrder(cases.filter((one) => wanted.has(one.id) && one.leftOut === null));
}

/**
 * Every case of the procedure operated from the first to the last of these, left out or not, whoever operated. For
 * safety, which does not depend on what is counted.
 */
export function spanOfCases(cases: readonly Case[], ids: readonly string[], procedureId: string): Case[] {
  const wanted = new Set(ids);
  const own = cases.filter((one) => wanted.has(one.id));
  if (own.length === 0) return [];
  const first = Math.min(...own.map((one) => one.sequence));
  const last = Math.max(...own.map((one) => one.sequence));
  return inOrder(
    cases.filter((one) => one.procedureId === procedureId && one.sequence >= first && one.sequence <= last),
  );
}
