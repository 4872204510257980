import { hiddenCaseIds, timesWereSeen } from '../rooms/goals/hidden-times';
import { lastChangeSchema, undoOf, type LastChange, type Undo } from '../rooms/cases/last-change';
import { keptText } from '../rooms/forms/kept-text';
import type { SurgeonRecord, Case, ListRecord } from '../model';
import { attempt } from './attempt';
import type { Store } from './storage/port';

/** Among the drafts, so that erasing a case reaches it; no export holds it, and nothing rests on it. */
const KEY = 'undo-last-change';

/**
 * Changes cases and keeps how they stood before, in one change: what was made last can be undone.
 * @param also begins what belongs to the same change
 * @param onto a list made with it, to which these cases move
 */
export async function changeCases(
  store: Store,
  changes: readonly { case: Case; what: string }[],
  now: string,
  also: () => Promise<unknown>[] = () => [],
  onto?: Omit<ListRecord, 'id'>,
): Promise<void> {
  const before = await Promise.all(changes.map((each) => store.caseById(each.case.id)));
  const cases = before.flatMap((one) => (one ? [{ version: one.version + 1, before: one }] : []));
  await store.together(() => [
    ...(changes.length > 0
      ? [
          store.updateCases(
            changes.map((each) => each.case),
            changes.map(({ what }) => what),
            now,
            onto,
          ),
        ]
      : []),
    ...(cases.length > 0 ? [store.saveDraft(KEY, JSON.stringify({ cases } satisfies LastChange))] : []),
    ...also(),
  ]);
}

export const CHANGED_SINCE =
  'This has been changed again since, or the earlier entry is no longer kept, so it cannot be undone here. The history of the case shows the earlier entry. Nothing was undone.';

/** Undoes the change made last, if it still is the one (`of`) that the page had shown. @returns why not, or `null` */
export async function undoLast(
  store: Store,
  record: SurgeonRecord,
  ids: readonly string[],
  of: string,
  now: string,
): Promise<string | null> {
  const undo = await lastUndo(store, record, ids, now);
  if (undo?.kind === 'refused') return undo.because;
  if (undo?.kind !== 'offered' || undo.of !== of) return CHANGED_SINCE;
  const { refused } = await attempt('undo', () => changeCases(store, undo.back, now));
  return refused?.message ?? null;
}

/** What undoing the last change would do, if it was a change of all these cases or of one of them. */
export async function lastUndo(
  store: Store,
  record: SurgeonRecord,
  ids: readonly string[],
  now: string,
): Promise<Undo | null> {
  const last = keptText(lastChangeSchema, await store.draft(KEY));
  if (!last?.cases.some(({ before }) => ids.includes(before.id))) return null;
  const hidden = hiddenCaseIds(record);
  return undoOf(last, record, (one) => timesWereSeen(one, hidden), now);
}

/** The name of the file whose import made the latest change of this case: that is taken back as a whole, not here. */
export async function importedLast(
  store: Store,
  { id, history }: Pick<Case, 'id' | 'history'>,
): Promise<string | null> {
  const at = history.at(-1)?.at;
  const made = (await store.imports()).find((each) => !each.undone && each.at === at && each.replaced.includes(id));
  return made?.fileName ?? null;
}
