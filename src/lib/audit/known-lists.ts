import type { Case } from '../model';

/**
 * Over how many lists these cases are, wherever that is said or asked for. Cases whose list is not known are on none:
 * the blocks of neighbours that stand for lists in a resample are not counted.
 */
export const knownLists = (cases: readonly Pick<Case, 'listId'>[]): number =>
  new Set(cases.flatMap(({ listId }) => (listId === null ? [] : [listId]))).size;
