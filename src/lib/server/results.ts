import { lastedToStore } from '../rooms/after-twenty/lasted-words';
import { lastingOf, readingGoal } from '../rooms/goals/goal-reading';
import type { Goal, SurgeonRecord } from '../model';
import { inTurns } from './in-turns';
import { StorageError, type Store } from './storage/port';

/**
 * The result of a full window is read: stored once, as it is at this moment, and only shown from then on.
 * @returns whether a result of this look is stored now
 */
export async function readResult(store: Store, record: SurgeonRecord, goal: Goal, now: string): Promise<boolean> {
  const { toStore, stored, look } = await inTurns(readingGoal(record, goal));
  if (!toStore) return stored.some((each) => each.look === look);
  try {
    await store.storeResult({ ...toStore, storedAt: now });
  } catch (error) {
    // Requested twice at once: what the other request stored stands.
    if (!(error instanceof StorageError && error.code === 'already-there')) throw error;
  }
  return true;
}

/**
 * Whether it lasted is read: the answer of each complete twenty that was not read yet is kept with the result.
 * @returns whether there was one to keep
 */
export async function readLasted(store: Store, record: SurgeonRecord, goal: Goal, now: string): Promise<boolean> {
  const reading = await inTurns(readingGoal(record, goal));
  const result = reading.stored.at(-1);
  const fresh = lastedToStore(result, lastingOf(record, reading), now);
  if (!result || fresh.length === 0) return false;
  await store.storeLasted(result.id, fresh);
  return true;
}
