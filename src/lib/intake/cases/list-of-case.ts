import type { Steps } from '../../turns';
import { cellOf, type ColumnSet } from '../headings/column';
import { newLedger, type Ledger } from '../ledger';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';
import type { DateOrder } from '../table/dates';
import { whenOf } from '../table/when';
import { weights } from '../weights';

/** On which list the case of these rows was, and when; a sheet's own list where none of them says it. */
export function listOf(
  rows: readonly Row[],
  set: ColumnSet,
  sheetRow: Row | null,
  { days, today, ledger }: { days: DateOrder; today: string | null; ledger: Ledger },
): { list: string; when: string | null } {
  const carried = sheetRow !== null && rows.every((row) => !saysList(row, set));
  const said = carried ? [sheetRow] : rows;
  return {
    list: said.map((row) => cellOf(row, set.own('list'))).find((text) => blankOf(text) !== 'empty') ?? '',
    // A problem with a date carried over from another row is named at that row.
    when: whenOf(said, set.own('date'), days, today, carried ? newLedger() : ledger),
  };
}

/** Does this row say on which list its case was? */
const saysList = (row: Row, set: ColumnSet): boolean =>
  blankOf(cellOf(row, set.own('list'))) !== 'empty' || cellOf(row, set.own('date')) !== '';

/**
 * A row that names the list of a sheet; `null` where none does, or rows name several. A sheet is one list, so a case
 * written under the others belongs to it though nobody repeated its name.
 */
export function* sheetListRow(rows: readonly Row[], set: ColumnSet): Steps<Row | null> {
  const lists = new Map<string, Row>();
  for (const row of rows) {
    yield weights.row;
    const list = `${cellOf(row, set.own('list'))}\u0000${cellOf(row, set.own('date'))}`;
    if (saysList(row, set) && !lists.has(list)) lists.set(list, row);
  }
  const [first] = lists.values();
  return lists.size === 1 ? (first ?? null) : null;
}
