import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import type { Context } from '../context';
import { weights } from '../weights';
import type { Column, ColumnSet } from './column';
import { dropTwice, dropWhatDoesNotRead, placeColumns } from './column-checks';
import { meantBy, under } from './column-meaning';
import type { Found } from './find-headings';

/** What each column holds: by its heading, by what stands under it where the heading says too little, or as chosen. */
export function* columnSet(
  { read, body, layout }: Found,
  procedure: Procedure,
  { ask, ledger }: Context,
): Steps<ColumnSet> {
  const headings = read.get(procedure) ?? [];
  const columns: Column[] = [];
  for (const [index, heading] of headings.entries()) {
    yield weights.column;
    const { text, key, match } = heading;
    const meant = meantBy(heading, under(body, index), { procedure, layout, ask });
    columns.push({ index, heading: text, key, unit: match?.unit ?? null, ...meant });
  }
  placeColumns(columns, headings, procedure);
  for (const column of [...columns]) {
    yield weights.column;
    dropWhatDoesNotRead(column, columns, body, procedure, ledger);
  }
  dropTwice(columns, ledger);
  const own = new Map(
    columns.flatMap((column) => (column.target.what === 'own' ? [[column.target.id, column] as const] : [])),
  );
  return { columns, own: (id) => own.get(id) };
}
