import type { Store } from '../port';
import { readable } from '../readable-part';
import type { Draft, Shelf } from '../shelf';

/** Removes the drafts for which `gone` is true. */
export function dropDrafts(draft: Draft, gone: (key: string, value: string) => boolean): void {
  const values = draft.read('drafts')?.values ?? {};
  const kept = Object.entries(values).filter(([key, value]) => !gone(key, value));
  if (kept.length < Object.keys(values).length) draft.write('drafts', { values: Object.fromEntries(kept) });
}

/** Saved last, it stands last. */
function putDraft(draft: Draft, key: string, value: string): void {
  const others = Object.entries(draft.read('drafts')?.values ?? {}).filter(([other]) => other !== key);
  draft.write('drafts', { values: Object.fromEntries([...others, [key, value]]) });
}

export const draftVerbs = (
  shelf: Shelf,
): Pick<Store, 'draft' | 'saveDraft' | 'changeDraft' | 'draftsNamed' | 'dropDraft'> => {
  // A page opens without its draft where drafts cannot be read; storing one is refused.
  const values = () => readable(() => shelf.read('drafts'), null)?.values ?? {};
  return {
    draft: async (key) => (Object.hasOwn(values(), key) ? (values()[key] ?? null) : null),
    draftsNamed: async (prefix) =>
      Object.entries(values()).flatMap(([key, value]) => (key.startsWith(prefix) ? [{ key, value }] : [])),
    saveDraft: (key, value) => shelf.change((draft) => putDraft(draft, key, value)),
    changeDraft: (key, edit) =>
      shelf.change((draft) => {
        const stored = draft.read('drafts')?.values ?? {};
        putDraft(draft, key, edit(Object.hasOwn(stored, key) ? (stored[key] ?? null) : null));
      }),
    dropDraft: (key) => shelf.change((draft) => dropDrafts(draft, (other) => other === key)),
  };
};
