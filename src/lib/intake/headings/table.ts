import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import type { Context } from '../context';
import type { Row } from '../table/cells';
import { isOurs } from '../write/write-headings';
import { codeColumn, namePeople, type CodeColumn } from './code-column';
import type { ColumnSet } from './column';
import { columnSet } from './column-set';
import type { Found } from './find-headings';
import type { Layout } from './targets';
import { mainProcedure } from './which-procedure';

/** A sheet whose headings are understood. */
export type Table = {
  layout: Layout;
  procedure: Procedure;
  headings: readonly string[];
  set: ColumnSet;
  /** Rows under the headings. */
  body: readonly Row[];
  rowsIn: number;
  chapters: boolean;
  /** This tool wrote the file. */
  ours: boolean;
  code: CodeColumn;
};

/** Headings to columns: the procedure, and what each column holds. `null`: nothing tells cases apart, and the ledger says so. */
export function* tableOf(found: Found, context: Context): Steps<Table | null> {
  const { headings, body, above, chapters } = found;
  const procedure = yield* mainProcedure(found, context);
  const set = yield* columnSet(found, procedure, context);
  // Somebody may have said by hand that a column holds times after all.
  const timed = set.columns.some(({ target }) => target.what === 'step-time');
  const layout = found.layout === 'sheet' && timed ? 'cases' : found.layout;
  namePeople(set, context.ledger);
  const code = codeColumn(set, layout, context.ledger);
  if (!code) return null;
  const rowsIn = body.length + above.length;
  return { layout, procedure, headings, set, body, rowsIn, chapters, ours: isOurs(headings), code };
}
