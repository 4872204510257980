import type { AssessInput } from '../../src/lib/assess';
import type { SurgeonRecord } from '../../src/lib/model';
import { operation } from './month';

/** A record as the command line has it from a file. */
export const readingOf = ({ cases, lists }: SurgeonRecord): AssessInput['reading'] => ({
  procedureId: operation.id,
  cases: cases.map(
    (
      {
        listId,
        id: _i,
        source: _s,
        version: _v,
        history: _h,
        leftOut: _l,
        keptAsItIs: _k,
        factChanges: _f,
        invented: _n,
        ...one
      },
      at,
    ) => ({
      ...one,
      list: listId,
      row: at + 2,
    }),
  ),
  lists: lists.map(({ id, ...list }) => ({ ...list, key: id })),
  references: [],
  problems: [],
});
