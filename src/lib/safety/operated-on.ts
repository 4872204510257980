import type { Case, ListRecord } from '../model';

/**
 * How many were operated on a list: as was said, but never fewer than its cases in the record, one of which may have
 * come after it was said. `null`: not said.
 *
 * @param cases any that hold all those of the list
 */
export const operatedOn = ({ id, operated }: ListRecord, cases: readonly Case[]): number | null =>
  operated === null ? null : Math.max(operated, cases.filter(({ listId }) => listId === id).length);
