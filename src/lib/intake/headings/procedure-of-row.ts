import type { Procedure } from '../../model';
import type { Context } from '../context';
import { procedureMatcher } from '../labels/labels';
import type { Row } from '../table/cells';
import { cellOf, type ColumnSet } from './column';

/** The procedure of a row, by its column; a name nobody knows is refused, and that row with it. */
export function procedureReader(
  set: ColumnSet,
  main: Procedure,
  { procedures, ledger, choices }: Context,
): (row: Row) => Procedure | null {
  const column = set.own('procedure');
  if (!column || choices['procedure'] !== undefined) return () => main;
  const match = procedureMatcher(procedures);
  return (row) => {
    const text = cellOf(row, column);
    const { values } = match(text);
    const found = text === '' ? main : values.length === 1 && procedures.find(({ id }) => id === values[0]);
    if (found) return found;
    ledger.refuseRow(
      row.row,
      column.heading,
      text,
      `No procedure is known as "${text}" (known: ${procedures.map(({ name }) => name.toLowerCase()).join(', ')}). Correct it, or add the procedure in Settings.`,
    );
    return null;
  };
}
