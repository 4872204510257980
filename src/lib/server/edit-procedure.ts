import { type SurgeonRecord, procedureSchema, type Procedure } from '../model';
import { keptText } from '../rooms/forms/kept-text';
import { sameProcedure } from '../rooms/settings/procedures/as-shipped';
import { useOf, type ProcedureUse } from '../rooms/settings/procedures/use';
import { loadProcedures } from './content';
import { readRecord } from './record';
import { StaleVersionError, type Store } from './storage/port';

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
  return { record, procedure, shipped: shippedAs(id), use: useOf(record, id) };
}

const beforeKey = (id: string) => `procedure-before:${id}`;

const shippedAs = (id: string) => loadProcedures().find((each) => each.id === id) ?? null;

/** What is stored of a procedure: nothing where it is exactly as shipped. */
const edited = (after: Procedure, shipped: Procedure | null) =>
  shipped && sameProcedure(after, shipped) ? null : after;

/**
 * Stores a changed procedure and keeps how it was, for one undo: one change. Changed back to exactly what is shipped, it is
 * no longer an edit: corrections that come with a later version then reach it again.
 * @throws StaleVersionError where it is no longer as `before`, from which `after` was made
 */
export async function keepProcedure(store: Store, before: Procedure | null, after: Procedure): Promise<void> {
  if (before && sameProcedure(before, after)) return;
  const shipped = shippedAs(after.id);
  await store.together(() => [
    store.changeProcedure(after.id, (stored) => {
      const now = stored ?? shipped;
      const seen = before && now ? sameProcedure(now, before) : before === now;
      if (!seen) throw new StaleVersionError(`The procedure ${after.name}`);
      return edited(after, shipped);
    }),
    ...(before ? [store.saveDraft(beforeKey(after.id), JSON.stringify(before))] : []),
  ]);
}

/** Removes one of the surgeon's own procedures, with the same single undo. */
export async function dropProcedure(store: Store, procedure: Procedure): Promise<void> {
  await store.together(() => [
    store.changeProcedure(procedure.id, () => null),
    store.saveDraft(beforeKey(procedure.id), JSON.stringify(procedure)),
  ]);
}

/** The procedure as it was before the last change; `null` where that is no longer kept. */
export async function undoProcedure(store: Store, id: string): Promise<Procedure | null> {
  const before = keptText(procedureSchema, await store.draft(beforeKey(id)));
  if (before === null) return null;
  await store.together(() => [
    store.changeProcedure(id, () => edited(before, shippedAs(id))),
    store.dropDraft(beforeKey(id)),
  ]);
  return before;
}
