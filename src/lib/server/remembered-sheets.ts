import { z } from 'zod';
import { textPointsToAPerson } from '../intake';
import type { Store } from './storage/port';

const DRAFT = 'workbook-sheets';
const namesSchema = z.array(z.string().max(60));
const MOST = 40;

/** Names of sheets that were brought in: the same are ticked in the next workbook. Names that may be a person's are not kept. */
export async function rememberedSheets(store: Pick<Store, 'draft'>): Promise<string[]> {
  try {
    const read = namesSchema.safeParse(JSON.parse((await store.draft(DRAFT)) ?? '[]'));
    return read.success ? read.data : [];
  } catch {
    return [];
  }
}

/** @param left the sheets of the same workbooks that were not ticked */
export async function rememberSheets(store: Store, taken: readonly string[], left: readonly string[]): Promise<void> {
  const kept = taken.filter((name) => name !== '' && name.length <= 60 && !textPointsToAPerson(name));
  if (kept.length + left.length === 0) return;
  const before = (await rememberedSheets(store)).filter((name) => !left.includes(name) && !kept.includes(name));
  const names = [...before, ...kept].slice(-MOST);
  if (names.length > 0) await store.saveDraft(DRAFT, JSON.stringify(names));
  else await store.dropDraft(DRAFT);
}

export const forgetSheets = (store: Store): Promise<void> => store.dropDraft(DRAFT);
