import { type SurgeonRecord, procedureSchema, type Procedure } from '../model';
import { sameProcedure } from '../rooms/settings/procedures/as-shipped';
import { useOf, type ProcedureUse } from '../rooms/settings/procedures/use';
import { loadProcedures } from './content';
import { readRecord } from './record';
import type { Store } from './storage/port';

/** A procedure with all that decides what may be done to it. `shipped`: as it comes with the tool; `null` for an own one. */
export type OpenProcedure = {
  record: SurgeonRecord;
  procedure: Procedure;
  shipped: Procedure | null;
  use: ProcedureUse;
};

export async function openProcedure(store: Store, id: string): Promise<OpenProcedure | null> {
  const record = await readRecord(store);
  const procedure = record.procedures.find((each) => each.id === id);
  if (!procedure) return null;
  const shipped = loadProcedures().find((each) => each.id === id) ?? null;
  return { record, procedure, shipped, use: useOf(record, id) };
}

const beforeKey = (id: string) => `procedure-before:${id}`;

/**
 * Stores a changed procedure and keeps how it was, for one undo. Changed back to exactly what is shipped, it is no longer an
 * edit: corrections that come with a later version then reach it again.
 */
export async function keepProcedure(store: Store, before: Procedure | null, after: Procedure): Promise<void> {
  if (before && sameProcedure(before, after)) return;
  const shipped = loadProcedures().find(({ id }) => id === after.id);
  const edited = (await store.procedures()).some(({ id }) => id === after.id);
  if (!shipped || !sameProcedure(after, shipped)) await store.saveProcedure(after);
  else if (edited) await store.removeProcedure(after.id);
  if (before) await store.saveDraft(beforeKey(after.id), JSON.stringify(before));
}

/** Takes an own procedure away, with the same one undo. */
export async function dropProcedure(store: Store, procedure: Procedure): Promise<void> {
  await store.removeProcedure(procedure.id);
  await store.saveDraft(beforeKey(procedure.id), JSON.stringify(procedure));
}

/** The procedure as it was before the last change; `null` where that is not kept any more. */
export async function undoProcedure(store: Store, id: string): Promise<Procedure | null> {
  const text = await store.draft(beforeKey(id));
  if (text === null) return null;
  const before = procedureSchema.parse(JSON.parse(text));
  await keepProcedure(store, null, before);
  await store.dropDraft(beforeKey(id));
  return before;
}
