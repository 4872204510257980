import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import type { Context } from '../context';
import { labelMatcher } from '../labels/labels';
import { nameMatcher } from '../labels/name-matcher';
import type { Row } from '../table/cells';
import { intakeThresholds } from '../thresholds';
import { cellOf, type ColumnSet } from './column-set';
import { headingMatcher } from './headings';
import type { Layout } from './targets';

/** The procedure whose names fit best, unless a column says it; asked, so that it can be corrected. */
export function* mainProcedure(
  headings: readonly string[],
  body: readonly Row[],
  layout: Layout,
  { procedures, choices, ask }: Context,
): Work<Procedure> {
  const rows = body.slice(0, intakeThresholds.procedureSample);
  let best = { procedure: procedures[0] as Procedure, fit: -1 };
  for (const procedure of procedures) {
    const fit = yield* fitOf(procedure, headings, rows, layout);
    if (fit > best.fit) best = { procedure, fit };
  }
  if (procedures.length === 1) return best.procedure;
  const match = headingMatcher(best.procedure, layout);
  const column = headings.findIndex((heading) =>
    match(heading).targets.some((target) => target.what === 'own' && target.id === 'procedure'),
  );
  if (column >= 0 && choices['procedure'] === undefined) {
    const named = procedureMatcher(procedures);
    const ids = yield* mapped(rows, ({ cells }) => named(cells[column] ?? '').values[0]);
    const counts = procedures.map((procedure) => ({
      procedure,
      count: ids.filter((id) => id === procedure.id).length,
    }));
    const most = counts.reduce((one, other) => (other.count > one.count ? other : one));
    if (most.count > 0) return most.procedure;
  }
  const answer = ask({
    id: 'procedure',
    question: 'Which procedure is it?',
    options: procedures.map(({ id, name }) => ({ value: id, label: name })),
    guess: best.procedure.id,
  });
  return procedures.find(({ id }) => id === answer) ?? best.procedure;
}

const procedureMatcher = (procedures: readonly Procedure[]) =>
  nameMatcher(procedures.map(({ id, name, synonyms }) => ({ value: id, names: [id, name, ...synonyms] })));

/** A name nobody knows is held against every name there is, letter by letter. */
const NAMES_A_SLICE = 10;

function* fitOf(procedure: Procedure, headings: readonly string[], rows: readonly Row[], layout: Layout): Work<number> {
  const weight = { exact: 2, loose: 1, unclear: 0, none: 0 } as const;
  const match = headingMatcher(procedure, layout);
  const sum = (fits: readonly number[]) => fits.reduce((total, fit) => total + fit, 0);
  if (layout !== 'stretches') {
    const kind = layout === 'sheet' ? 'fact' : 'step-';
    const ofHeading = (heading: string) =>
      match(heading).targets[0]?.what.startsWith(kind) ? weight[match(heading).how] : 0;
    return sum(yield* mapped(headings, ofHeading, NAMES_A_SLICE));
  }
  const column = headings.findIndex((heading) =>
    match(heading).targets.some((target) => target.what === 'own' && target.id === 'step'),
  );
  const labels = labelMatcher(procedure, false);
  const distinct = [...new Set(rows.map(({ cells }) => cells[column] ?? ''))];
  return sum(yield* mapped(distinct, (label) => weight[labels(label).how], NAMES_A_SLICE));
}

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
