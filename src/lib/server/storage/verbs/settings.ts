import { emptyProfile, procedureSchema, profileSchema } from '../../../model';
import { checked } from '../checked';
import type { Store } from '../port';
import type { Draft, Reader, Shelf } from '../shelf';
import type { Procedure, Profile } from '../../../model';

const noProfile = profileSchema.parse(emptyProfile);

export const profileOf = (reader: Reader): Profile => reader.read('profile')?.profile ?? noProfile;
export const proceduresOf = (reader: Reader): readonly Procedure[] => reader.read('procedures')?.records ?? [];

/** A procedure of the same id gives way: an edited shipped procedure keeps the shipped id. */
export function putProcedure(draft: Draft, procedure: Procedure): void {
  const others = proceduresOf(draft).filter((other) => other.id !== procedure.id);
  draft.write('procedures', { records: [...others, procedure] });
}

export const settingsVerbs = (
  shelf: Shelf,
): Pick<Store, 'profile' | 'saveProfile' | 'procedures' | 'saveProcedure'> => ({
  profile: async () => profileOf(shelf),
  saveProfile: (profile) =>
    shelf.change((draft) => draft.write('profile', { profile: checked(profileSchema, profile, 'The settings') })),
  procedures: async () => [...proceduresOf(shelf)],
  saveProcedure: (procedure) =>
    shelf.change((draft) =>
      putProcedure(draft, checked(procedureSchema, procedure, `The procedure ${procedure.name}`)),
    ),
});
