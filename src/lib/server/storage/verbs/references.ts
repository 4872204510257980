import { referenceSetSchema, type ReferenceSet } from '../../../model';
import { checked, found } from '../checked';
import { newDocumentId } from '../store-ledger';
import { numberOf } from '../numbered';
import type { Store } from '../port';
import type { Draft, Reader, Shelf } from '../shelf';

type SetName = `reference/${string}`;

export const referencesOf = (reader: Reader): ReferenceSet[] =>
  reader
    .names('reference')
    .flatMap((name) => reader.read(name as SetName)?.record ?? [])
    .sort((a, b) => numberOf(a.id) - numberOf(b.id));

export function addReference(draft: Draft, reference: Omit<ReferenceSet, 'id'>): ReferenceSet {
  const id = newDocumentId(draft, 'reference');
  const record = checked(referenceSetSchema, { ...reference, id }, `The reference set ${reference.label}`);
  draft.write(`reference/${id}`, { record });
  return record;
}

export const referenceVerbs = (shelf: Shelf): Pick<Store, 'references' | 'saveReference' | 'removeReference'> => ({
  references: async () => referencesOf(shelf),
  saveReference: (reference) => shelf.change((draft) => addReference(draft, reference)),
  removeReference: (id) =>
    shelf.change((draft) => {
      found(
        referencesOf(draft).find((set) => set.id === id),
        'The reference set',
      );
      draft.remove(`reference/${id}`);
    }),
});
