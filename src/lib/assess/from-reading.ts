import { itemAt } from '../item-at';
import type { AuditReading } from '../intake';
import { asCase, type Case, type ListRecord, type ReferenceCase, type ReferenceSet, type Procedure } from '../model';
import { stepTable } from '../audit';

/** What a file holds, with ids for the time of one computation: nothing is stored. */
export type ReadRecord = { cases: Case[]; lists: ListRecord[]; references: ReferenceSet[] };

type Reading = Pick<AuditReading, 'cases' | 'lists' | 'references'>;

/**
 * A reading as the record it would become. Ids are made from the order in the file, so that the same file gives the
 * same numbers. References become one set: step times in seconds, no codes, no dates.
 */
export function recordFromReading(reading: Reading, procedure: Procedure): ReadRecord {
  const listId = new Map(reading.lists.map((list, index) => [list.key, `list-${index + 1}`]));
  const lists = reading.lists.map(({ key, ...list }): ListRecord => ({ ...list, id: listId.get(key) ?? key }));
  const cases = reading.cases
    .filter((one) => one.procedureId === procedure.id)
    .map((one, index) => asCase(one, `case-${index + 1}`, one.list === null ? null : (listId.get(one.list) ?? null)));
  return { cases, lists, references: referenceSetsOf(reading, procedure) };
}

/** Step times of other surgeons' cases, as a reference set; `[]` where the file has none. */
export function referenceSetsOf(reading: Pick<Reading, 'references'>, procedure: Procedure): ReferenceSet[] {
  const own = reading.references.filter(({ case: one }) => one.procedureId === procedure.id);
  if (own.length === 0) return [];
  const table = stepTable(
    own.map(({ case: one }, index) => ({ ...asCase(one, `case-${index + 1}`, null), sequence: index + 1 })),
    procedure,
    [],
  );
  const cases = own.map(({ reader, list, case: one }, index): ReferenceCase => ({
    reader,
    list,
    facts: one.facts,
    stepSeconds: Object.fromEntries(
      table.stepIds.flatMap((stepId, step) => {
        const seconds = itemAt(itemAt(table.seconds, step), index);
        return Number.isFinite(seconds) && seconds > 0 ? [[stepId, seconds]] : [];
      }),
    ),
  }));
  return [
    {
      id: 'reference-1',
      label: 'From this file',
      procedureId: procedure.id,
      agreedAt: '1970-01-01T00:00:00.000Z',
      cases,
      invented: false,
    },
  ];
}
