import type { Procedure } from '../../model';
import { cellOf, type ColumnSet, type Row } from '../table/column-set';
import { headingMatcher } from './headings';
import type { Layout } from './targets';
import { labelMatcher } from '../labels/labels';
import type { Ledger } from '../ledger';
import { nameMatcher } from '../labels/name-matcher';
import type { Ask } from '../questions';
import type { RowFacts } from '../table/row-facts';

type Context = {
  procedures: readonly Procedure[];
  choices: Readonly<Record<string, string>>;
  ask: Ask;
  ledger: Ledger;
};

/** The procedure whose names fit best, unless a column says it; asked, so that it can be corrected. */
export function mainProcedure(
  headings: readonly string[],
  rows: readonly Row[],
  layout: Layout,
  { procedures, choices, ask }: Context,
): Procedure {
  const fits = procedures.map((procedure) => ({ procedure, fit: fitOf(procedure, headings, rows, layout) }));
  const best = fits.reduce((one, other) => (other.fit > one.fit ? other : one)).procedure;
  if (procedures.length === 1) return best;
  const column = headings.findIndex((heading) =>
    headingMatcher(best, layout)(heading).targets.some((target) => target.what === 'own' && target.id === 'procedure'),
  );
  if (column >= 0 && choices['procedure'] === undefined) {
    const match = procedureMatcher(procedures);
    const counts = procedures.map((procedure) => ({
      procedure,
      count: rows.filter(({ cells }) => match(cells[column] ?? '').values[0] === procedure.id).length,
    }));
    const most = counts.reduce((one, other) => (other.count > one.count ? other : one));
    if (most.count > 0) return most.procedure;
  }
  const answer = ask({
    id: 'procedure',
    question: 'Which procedure is it?',
    options: procedures.map(({ id, name }) => ({ value: id, label: name })),
    guess: best.id,
  });
  return procedures.find(({ id }) => id === answer) ?? best;
}

const procedureMatcher = (procedures: readonly Procedure[]) =>
  nameMatcher(procedures.map(({ id, name, synonyms }) => ({ value: id, names: [id, name, ...synonyms] })));

function fitOf(procedure: Procedure, headings: readonly string[], rows: readonly Row[], layout: Layout): number {
  const weight = { exact: 2, loose: 1, unclear: 0, none: 0 } as const;
  const match = headingMatcher(procedure, layout);
  if (layout === 'sheet')
    return headings.reduce(
      (sum, heading) => sum + (match(heading).targets[0]?.what === 'fact' ? weight[match(heading).how] : 0),
      0,
    );
  if (layout === 'cases')
    return headings.reduce(
      (sum, heading) => sum + (match(heading).targets[0]?.what.startsWith('step-') ? weight[match(heading).how] : 0),
      0,
    );
  const column = headings.findIndex((heading) =>
    match(heading).targets.some((target) => target.what === 'own' && target.id === 'step'),
  );
  const labels = labelMatcher(procedure, false);
  return [...new Set(rows.map(({ cells }) => cells[column] ?? ''))].reduce(
    (sum, label) => sum + weight[labels(label).how],
    0,
  );
}

/** The procedure of each row, by its column; a name nobody knows is refused, and that row with it. */
export function procedureReader(
  rows: readonly RowFacts[],
  set: ColumnSet,
  main: Procedure,
  { procedures, ledger, choices }: Context,
): (row: RowFacts) => Procedure | null {
  const column = set.own('procedure');
  if (!column || choices['procedure'] !== undefined) return () => main;
  const match = procedureMatcher(procedures);
  const read = new Map<RowFacts, Procedure | null>();
  for (const facts of rows) {
    const text = cellOf(facts.row, column);
    const found = match(text);
    const procedure =
      text === '' ? main : (found.values.length === 1 && procedures.find(({ id }) => id === found.values[0])) || null;
    read.set(facts, procedure);
    if (procedure === null)
      ledger.refuseRow(
        facts.row.row,
        column.heading,
        text,
        `No procedure is known as "${text}" (known: ${procedures.map(({ name }) => name.toLowerCase()).join(', ')}). Correct it, or add the procedure in Settings.`,
      );
  }
  return (facts) => read.get(facts) ?? null;
}
