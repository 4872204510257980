import type { Case, ListRecord } from '../model';
import { isSerious, untimedOfList } from './event-tally';

/** One operation in which events were answered. `risk`: its own expected rate, where complexity classes are entered. */
export type MonitoredOperation = {
  serious: boolean;
  /** Every serious event of it has its written review. */
  reviewed: boolean;
  caseId: string | null;
  risk?: number;
};

/**
 * Answered operations in order: timed cases by sequence, and after the last case of a list those of its operations
 * that were not timed but were answered for (their place within the list is not known).
 * @param riskOf expected rate of a case from its complexity class; `null` without one
 */
export function monitoredOperations(
  cases: readonly Case[],
  lists: readonly ListRecord[] = [],
  riskOf: (one: Case) => number | null = () => null,
): MonitoredOperation[] {
  const ordered = [...cases].sort((a, b) => a.sequence - b.sequence);
  const byId = new Map(lists.map((list) => [list.id, list]));
  const onList = new Map<string | null, Case[]>();
  for (const one of ordered) {
    const those = onList.get(one.listId);
    if (those) those.push(one);
    else onList.set(one.listId, [one]);
  }
  return ordered.flatMap((one) => {
    const risk = riskOf(one);
    const own: MonitoredOperation[] =
      one.events === null
        ? []
        : [
            {
              serious: one.events.some(isSerious),
              reviewed: one.events.filter(isSerious).every((event) => event.reviewed !== null),
              caseId: one.id,
              ...(risk === null ? {} : { risk }),
            },
          ];
    const list = one.listId === null ? undefined : byId.get(one.listId);
    const timed = onList.get(one.listId) ?? [];
    return list && timed.at(-1) === one ? [...own, ...untimed(list, timed)] : own;
  });
}

function untimed(list: ListRecord, cases: readonly Case[]): MonitoredOperation[] {
  const serious = list.untimedEvents.filter(isSerious);
  const answered = untimedOfList(list, cases)?.answered ?? 0;
  return Array.from({ length: answered }, (_, index) => {
    const event = serious[index];
    return { serious: event !== undefined, reviewed: event ? event.reviewed !== null : true, caseId: null };
  });
}
