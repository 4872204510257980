import type { Procedure } from '../model';
import { loadProcedures } from './content';
import type { Store } from './storage/port';

/** The shipped procedures, with the surgeon's own edits and additions in their place. */
export async function proceduresOf(store: Pick<Store, 'procedures'>): Promise<Procedure[]> {
  const own = await store.procedures();
  const shipped = loadProcedures();
  return [
    ...shipped.map((procedure) => own.find((each) => each.id === procedure.id) ?? procedure),
    ...own.filter((procedure) => !shipped.some((each) => each.id === procedure.id)),
  ];
}
