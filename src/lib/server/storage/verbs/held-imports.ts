import { found } from '../checked';
import { newDocumentId } from '../store-ledger';
import { StorageError, type HeldImport, type Store } from '../port';
import type { Draft, Reader, Shelf } from '../shelf';
import { frozen } from '../frozen';

export type ImportName = `imports/${string}`;
export const importNames = (reader: Reader) => reader.names('imports') as ImportName[];

/** An import that cannot be read is no reason to refuse the next one. */
function heldOrUnreadable(reader: Reader, name: ImportName): HeldImport | null {
  try {
    const document = reader.read(name);
    return document?.state === 'held' ? document.held : null;
  } catch (why) {
    if (why instanceof StorageError) return null;
    throw why;
  }
}

const aDay = 24 * 60 * 60 * 1000;

/** The text of a file that nobody confirmed must not be left lying about: it is deleted after a day. */
export function dropForgotten(draft: Draft, now: string): void {
  for (const name of importNames(draft)) {
    const held = heldOrUnreadable(draft, name);
    if (held && Date.parse(now) - Date.parse(held.heldAt) > aDay) draft.remove(name);
  }
}

export const heldIn = (reader: Reader, id: string): HeldImport | null => {
  const document = reader.read(`imports/${id}`);
  return document?.state === 'held' ? document.held : null;
};

export const heldImportVerbs = (
  shelf: Shelf,
): Pick<Store, 'holdImport' | 'heldImport' | 'updateHeldImport' | 'dropHeldImport'> => ({
  holdImport: (held) =>
    shelf.change((draft) => {
      dropForgotten(draft, held.heldAt);
      const id = newDocumentId(draft, 'import');
      const document = frozen({ state: 'held' as const, held: { ...held, id, choices: { ...held.choices } } });
      draft.write(`imports/${id}`, document);
      return document.held;
    }),
  heldImport: async (id) => heldIn(shelf, id),
  updateHeldImport: (held) =>
    shelf.change((draft) => {
      found(heldIn(draft, held.id), 'This import');
      draft.write(`imports/${held.id}`, frozen({ state: 'held', held: { ...held, choices: { ...held.choices } } }));
    }),
  dropHeldImport: (id) =>
    shelf.change((draft) => {
      if (heldIn(draft, id)) draft.remove(`imports/${id}`);
    }),
});
