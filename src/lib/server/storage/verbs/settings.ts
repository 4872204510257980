import { emptyProfile, procedureSchema, profileSchema, type Procedure, type Profile } from '../../../model';
import { checked } from '../checked';
import { recordsOf } from '../numbered';
import { StorageError, type Store } from '../port';
import { allOf } from '../sharded';
import type { Draft, Reader, Shelf } from '../shelf';
import { referencesOf } from './references';

const noProfile = profileSchema.parse(emptyProfile);

export const profileOf = (reader: Reader): Profile => reader.read('profile')?.profile ?? noProfile;
export const proceduresOf = (reader: Reader): readonly Procedure[] => reader.read('procedures')?.records ?? [];

/** A procedure with the same id is replaced: an edited shipped procedure keeps the shipped id. */
export function putProcedure(draft: Draft, procedure: Procedure): void {
  const others = proceduresOf(draft).filter((other) => other.id !== procedure.id);
  draft.write('procedures', { records: [...others, procedure] });
}

/** @throws StorageError `in-use` where removing it would leave records of a procedure nobody can describe any more. */
function refuseIfUsed(reader: Reader, { id, name, origin }: Procedure): void {
  if (origin === 'shipped') return;
  const records = [...allOf(reader, 'cases'), ...recordsOf(reader, 'goals'), ...referencesOf(reader)];
  if (records.some(({ procedureId }) => procedureId === id))
    throw new StorageError('in-use', `There are records of the procedure ${name}, so it stays. Nothing was written.`);
}

export const settingsVerbs = (
  shelf: Shelf,
): Pick<Store, 'profile' | 'changeProfile' | 'procedures' | 'changeProcedure'> => ({
  profile: async () => profileOf(shelf),
  changeProfile: (edit) =>
    shelf.change((draft) => {
      const profile = checked(profileSchema, edit(profileOf(draft)), 'The settings');
      draft.write('profile', { profile });
      return profile;
    }),
  procedures: async () => [...proceduresOf(shelf)],
  changeProcedure: (id, edit) =>
    shelf.change((draft) => {
      const all = proceduresOf(draft);
      const stored = all.find((each) => each.id === id) ?? null;
      const changed = edit(stored);
      if (changed === stored) return;
      if (changed) putProcedure(draft, checked(procedureSchema, { ...changed, id }, `The procedure ${changed.name}`));
      else {
        if (stored) refuseIfUsed(draft, stored);
        draft.write('procedures', { records: all.filter((each) => each.id !== id) });
      }
    }),
});
