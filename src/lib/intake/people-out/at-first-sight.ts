import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import type { Context } from '../context';
import { codeColumn } from '../headings/code-column';
import type { Column } from '../headings/column';
import { columnSet } from '../headings/column-set';
import { findHeadings } from '../headings/find-headings';
import { mainProcedure } from '../headings/which-procedure';
import { newLedger } from '../ledger';
import { asker } from '../questions';
import type { Row, Sheet } from '../table/cells';

/** A sheet as it is understood before anybody answered anything: its columns, and which of them tells cases apart. */
export type AtFirstSight = {
  headings: readonly string[];
  columns: readonly (Column | null)[];
  code: number | null;
  body: readonly Row[];
  above: readonly Row[];
};

export function* atFirstSight(sheet: Sheet, procedures: readonly Procedure[]): Steps<AtFirstSight> {
  const ledger = newLedger();
  const { ask } = asker({});
  const context: Context = { procedures, choices: {}, ask, ledger, taken: new Set(), besideOwn: false, today: null };
  const found = yield* findHeadings(sheet, context);
  if (!found) {
    const [first, ...body] = sheet.rows;
    const width = widest(sheet.rows);
    const columns = Array.from({ length: width }, () => null);
    return { headings: first?.cells ?? [], columns, code: null, body, above: first ? [first] : [] };
  }
  const procedure = yield* mainProcedure(found, context);
  const set = yield* columnSet(found, procedure, context);
  const code = codeColumn(set, found.layout, ledger)?.column ?? null;
  // Cells beyond the last heading are under none.
  const width = Math.max(found.headings.length, widest(found.body));
  const columns = Array.from({ length: width }, (_, index) => set.columns[index] ?? null);
  return { headings: found.headings, columns, code, body: found.body, above: found.above };
}

const widest = (rows: readonly Row[]): number => rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);
