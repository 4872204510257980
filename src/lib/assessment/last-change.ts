import { z } from 'zod';
import { caseSchema, type Case } from '../model';
import { isLeftOutReason, leaveOutRefused } from './leave-out-rules';
import type { SurgeonRecord } from './record';

/** The cases of the change made last, as they stood before it, with the version each has had since. */
export const lastChangeSchema = z.strictObject({
  cases: z.array(z.strictObject({ version: z.number().int().positive(), before: caseSchema })).min(1),
});
export type LastChange = z.infer<typeof lastChangeSchema>;

export type Undo =
  /** `what`: the line of history that would be undone, of one case or of several. */
  | { kind: 'offered'; cases: number; what: string; back: readonly { case: Case; what: string }[] }
  | { kind: 'refused'; because: string };

/**
 * What undoing the change made last would do; `null` where these cases are not those of it, or have changed since.
 * Undone is a change like any other: with its line of history, and to be undone in its turn.
 *
 * @param seen whether the times of a case have been in sight: a fact that goes back is then marked like any late change,
 *   and the mark of the change that is undone stays
 */
export function undoOf(
  last: LastChange | null,
  record: SurgeonRecord,
  seen: (one: Case) => boolean,
  now: string,
): Undo | null {
  const byId = new Map(record.cases.map((one) => [one.id, one]));
  const pairs = (last?.cases ?? []).flatMap(({ version, before }) => {
    const after = byId.get(before.id);
    return after?.version === version ? [{ before, after }] : [];
  });
  const [first] = pairs;
  if (!last || !first || pairs.length < last.cases.length) return null;
  const kept = pairs.find(({ after }) => after.keptAsItIs !== null);
  if (kept)
    return { kind: 'refused', because: `Case ${kept.after.code} is kept as it is, so nothing in it is undone.` };
  for (const { before, after } of pairs) {
    if (before.leftOut === null || after.leftOut !== null || !isLeftOutReason(before.leftOut.reason)) continue;
    const because = leaveOutRefused(after, before.leftOut.reason, record);
    if (because) return { kind: 'refused', because };
  }
  const what = (one: Case) => one.history.at(-1)?.what ?? 'Changed';
  return {
    kind: 'offered',
    cases: pairs.length,
    what: what(first.after),
    back: pairs.map(({ before, after }) => ({
      case: { ...before, factChanges: marks(before, after, seen(after), now), version: after.version },
      what: `Undone: ${what(after).replace(/^Undone: /, '')}`,
    })),
  };
}

function marks(before: Case, after: Case, seen: boolean, now: string): Case['factChanges'] {
  if (!seen) return after.factChanges;
  const ids = [...new Set([...Object.keys(before.facts), ...Object.keys(after.facts)])];
  const late = ids
    .filter((id) => before.facts[id] !== after.facts[id])
    .map((factId) => ({ factId, before: after.facts[factId] ?? null, after: before.facts[factId] ?? null, at: now }));
  return [...after.factChanges, ...late];
}
