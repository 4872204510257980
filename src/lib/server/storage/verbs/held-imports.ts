import { found } from '../checked';
import { newDocumentId } from '../store-ledger';
import { StorageError, type HeldImport, type Store } from '../port';
import type { Draft, Reader, Shelf } from '../shelf';
import { frozen } from '../frozen';
import { numberOf } from '../numbered';

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

/** Milliseconds for which a file is kept that nobody took: an hour after it was last looked at. */
export const HELD_FOR = 60 * 60 * 1000;

const isForgotten = ({ heldAt }: HeldImport, now: string): boolean => Date.parse(now) - Date.parse(heldAt) > HELD_FOR;

/** The text of a file that nobody confirmed must not be left lying about. */
export function dropForgotten(draft: Draft, now: string): void {
  for (const name of importNames(draft)) {
    const held = heldOrUnreadable(draft, name);
    if (held && isForgotten(held, now)) draft.remove(name);
  }
}

const heldIn = (reader: Reader): HeldImport[] =>
  importNames(reader).flatMap((name) => heldOrUnreadable(reader, name) ?? []);

export const heldAs = (reader: Reader, id: string): HeldImport | null => {
  const document = reader.read(`imports/${id}`);
  return document?.state === 'held' ? document.held : null;
};

export const heldImportVerbs = (
  shelf: Shelf,
): Pick<
  Store,
  'holdImport' | 'heldImports' | 'heldImport' | 'updateHeldImport' | 'dropHeldImport' | 'dropForgottenImports'
> => ({
  holdImport: (held) =>
    shelf.change((draft) => {
      dropForgotten(draft, held.heldAt);
      const id = newDocumentId(draft, 'import');
      const document = frozen({ state: 'held' as const, held: { ...held, id, choices: { ...held.choices } } });
      draft.write(`imports/${id}`, document);
      return document.held;
    }),
  heldImports: async (now) =>
    heldIn(shelf)
      .filter((held) => !isForgotten(held, now))
      .sort((one, other) => numberOf(one.id) - numberOf(other.id)),
  heldImport: async (id, now) => {
    const held = heldAs(shelf, id);
    return held && now !== undefined && isForgotten(held, now) ? null : held;
  },
  updateHeldImport: (held) =>
    shelf.change((draft) => {
      found(heldAs(draft, held.id), 'This import');
      draft.write(`imports/${held.id}`, frozen({ state: 'held', held: { ...held, choices: { ...held.choices } } }));
    }),
  dropHeldImport: (id) =>
    shelf.change((draft) => {
      if (heldAs(draft, id)) draft.remove(`imports/${id}`);
    }),
  dropForgottenImports: async (now) => {
    if (heldIn(shelf).some((held) => isForgotten(held, now))) await shelf.change((draft) => dropForgotten(draft, now));
  },
});
