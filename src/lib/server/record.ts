import type { SurgeonRecord } from '../model';
import { proceduresOf } from './procedures';
import type { Store } from './storage/port';

/** The whole record, read at once; the store keeps it in memory. */
export async function readRecord(store: Store): Promise<SurgeonRecord> {
  const [profile, procedures, lists, cases, goals, results, reflections, references] = await Promise.all([
    store.profile(),
    proceduresOf(store),
    store.lists(),
    store.cases(),
    store.goals(),
    store.results(),
    store.reflections(),
    store.references(),
  ]);
  return { profile, procedures, lists, cases, goals, results, reflections, references };
}
