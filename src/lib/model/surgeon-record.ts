import type { Case } from './case';
import type { Goal } from './goal';
import type { ListRecord } from './list';
import type { Procedure } from './procedure';
import type { Profile } from './profile';
import type { ReferenceSet } from './reference-set';
import type { Reflection } from './reflection';
import type { StoredResult } from './result';

/** All of one surgeon's record that a room may look at; shipped procedures already merged with the surgeon's own. */
export type SurgeonRecord = {
  profile: Profile;
  procedures: readonly Procedure[];
  lists: readonly ListRecord[];
  /** In order of sequence. */
  cases: readonly Case[];
  goals: readonly Goal[];
  results: readonly StoredResult[];
  reflections: readonly Reflection[];
  references: readonly ReferenceSet[];
};

/** A procedure by id; the surgeon's main one, else the first there is, where the id is unknown. */
export function procedureOf(record: Pick<SurgeonRecord, 'procedures' | 'profile'>, id: string): Procedure {
  const found =
    record.procedures.find((each) => each.id === id) ??
    record.procedures.find((each) => each.id === record.profile.procedureId) ??
    record.procedures[0];
  if (!found) throw new Error('No procedure is known: the shipped ones are missing.');
  return found;
}
