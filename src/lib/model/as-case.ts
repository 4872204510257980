import type { Case, NewCase } from './case';

/** A case as it would stand in a record, with ids for the time of one computation: nothing is stored. */
export function asCase({ list: _list, row, ...one }: NewCase, id: string, listId: string | null): Case {
  return {
    ...one,
    id,
    listId,
    factChanges: [],
    source: { kind: 'file', importId: 'import-1', row },
    leftOut: null,
    keptAsItIs: null,
    invented: false,
    version: 1,
    history: [],
  };
}
