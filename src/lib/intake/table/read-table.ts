import type { Procedure } from '../../model';
import { scaled, type Work } from '../../turns';
import { cellsOf } from './cells';
import { cellOf, columnSet, type ColumnSet } from './column-set';
import type { Draft } from '../cases/draft';
import { findHeadings, sayNoHeadings } from '../headings/find-headings';
import type { Layout } from '../headings/targets';
import { planLabels, type LabelPlan, type LabelUse } from '../labels/label-plan';
import type { Ledger } from '../ledger';
import { headingPointsToAPerson } from './people';
import type { Ask } from '../questions';
import { readCases } from '../cases/read-cases';
import { readStretches } from '../stretches/read-stretches';
import { newCodesWanted, rowFacts, type RowFacts } from './row-facts';
import { askAboutTornRows } from './torn-rows';
import { mainProcedure, procedureReader } from '../headings/which-procedure';
import { isOurs } from '../write/write-headings';

export type Table = {
  layout: Layout;
  procedure: Procedure;
  set: ColumnSet;
  plans: readonly LabelPlan[];
  drafts: Draft[];
  rowsIn: number;
  ours: boolean;
  /** New codes were given: nothing can be joined by the old ones. */
  freshCodes: boolean;
};

type Context = {
  /** Chapter marks, written as a sheet to be read. */
  chapters: boolean;
  /** Codes of the record so far. */
  taken: ReadonlySet<string>;
  procedures: readonly Procedure[];
  choices: Readonly<Record<string, string>>;
  ask: Ask;
  ledger: Ledger;
};

/** A sheet in either layout: finds its headings, its procedure and its cases. `null`: it cannot be read, and the ledger says why. */
export function* readTable(text: string, context: Context): Work<Table | null> {
  const { ledger, ask, choices } = context;
  const sheet = yield* scaled(cellsOf(text), 0, 0.2);
  if (sheet.brokenQuoteRow !== null)
    ledger.query(
      sheet.brokenQuoteRow,
      null,
      null,
      'A quotation mark is opened here and never closed; quotation marks are read as plain signs. Close it if a cell holds a line break.',
    );
  const found = findHeadings(sheet, context.procedures, choices);
  if (!found) {
    sayNoHeadings(sheet, ledger);
    return null;
  }
  const { headings, body, above } = found;
  for (const { row, cells } of above)
    ledger.refuseRow(
      row,
      null,
      cells.find((cell) => cell !== '') ?? null,
      'This row stands above the headings; it is left out.',
    );
  if (body.length === 0) {
    ledger.refuseCell(
      null,
      null,
      null,
      'There are headings and no rows under them. Add a row for each stretch or case.',
    );
    return null;
  }
  askAboutTornRows(body, sheet.delimiter, headings.length, ledger);
  const procedure = mainProcedure(headings, body, found.layout, context);
  const set = columnSet(headings, body, procedure, found.layout, choices, ask, ledger);
  // Somebody may have said by hand that a column holds times after all.
  const timed = set.columns.some(({ target }) => target.what === 'step-time');
  const layout = found.layout === 'sheet' && timed ? 'cases' : found.layout;
  namePeople(set, ledger);
  const code = codeColumn(set, layout, ledger);
  if (code === 'missing') return null;
  const rows = yield* scaled(rowFacts(body, headings, set, code.index, ask, ledger), 0.2, 0.4);
  const freshCode =
    code.index === null || newCodesWanted(rows, code.person ? headings[code.index] : null, ask)
      ? codeMaker(context.taken)
      : null;
  const ours = isOurs(headings);
  const base = { layout, procedure, set, rowsIn: body.length + above.length, ours, freshCodes: freshCode !== null };
  const procedureOf = procedureReader(rows, set, procedure, context);
  const known = rows.filter((row) => procedureOf(row) !== null);
  if (layout !== 'stretches') {
    const fitting = known.filter((row) => procedureOf(row) === procedure || refuseOther(row, set, procedure, ledger));
    const drafts = yield* scaled(readCases(fitting, set, procedure, layout, freshCode, ask, ledger), 0.4, 1);
    return { ...base, plans: [], drafts };
  }
  const ofRow = (row: RowFacts) => procedureOf(row) ?? procedure;
  const plans = labelPlans(known, set, ofRow, ours, context);
  const drafts = yield* scaled(readStretches(known, set, ofRow, plans, freshCode, ask, ledger), 0.4, 1);
  return { ...base, plans: [...plans.values()].flatMap((one) => [...one.values()]), drafts };
}

/** Codes given anew count on from the first that is free; no key to the old ones is kept. */
function codeMaker(taken: ReadonlySet<string>): () => string {
  let next = 0;
  return () => {
    do next += 1;
    while (taken.has(`C${next}`));
    return `C${next}`;
  };
}

function namePeople(set: ColumnSet, ledger: Ledger): void {
  for (const { heading, target } of set.columns)
    if (target.what === 'leave' && target.because === 'person')
      ledger.refuseCell(
        null,
        heading,
        null,
        `"${heading}" points to a person, so nothing under it is read. Take the column out of the file; this record holds no names, numbers or birth dates.`,
      );
}

/** The column that tells cases apart: one of its own, or, where there is none, one that points to a patient and is replaced by new codes. */
function codeColumn(
  set: ColumnSet,
  layout: Layout,
  ledger: Ledger,
): { index: number | null; person: boolean } | 'missing' {
  const own = set.own('case');
  if (own) return { index: own.index, person: headingPointsToAPerson(own.heading) };
  const person = set.columns.find(({ target }) => target.what === 'leave' && target.because === 'person');
  if (person) return { index: person.index, person: true };
  if (layout !== 'stretches') {
    ledger.query(null, null, null, 'No column holds a code of the case, so each row is taken as a case and given one.');
    return { index: null, person: false };
  }
  ledger.refuseCell(
    null,
    'case_id',
    null,
    "No column says which case a row belongs to. Add a column case_id with a code of your own, never a patient's.",
  );
  return 'missing';
}

function refuseOther({ row }: RowFacts, set: ColumnSet, main: Procedure, ledger: Ledger): false {
  const column = set.own('procedure');
  ledger.refuseRow(
    row.row,
    column?.heading ?? null,
    cellOf(row, column),
    `The columns of this sheet are steps of ${main.name.toLowerCase()}. Bring in the rows of the other procedure as a file of their own.`,
  );
  return false;
}

function labelPlans(
  rows: readonly RowFacts[],
  set: ColumnSet,
  procedureOf: (row: RowFacts) => Procedure,
  ours: boolean,
  { choices, ask, chapters }: Context,
) {
  const uses = new Map<Procedure, Map<string, LabelUse>>();
  for (const facts of rows) {
    const label = cellOf(facts.row, set.own('step'));
    const ofProcedure = uses.get(procedureOf(facts)) ?? new Map<string, LabelUse>();
    uses.set(procedureOf(facts), ofProcedure);
    if (label === '') continue;
    const use = ofProcedure.get(label) ?? { label, rows: [] };
    ofProcedure.set(label, use);
    use.rows.push(facts.row.row);
  }
  return new Map(
    [...uses].map(([procedure, labels]) => [
      procedure,
      planLabels([...labels.values()], procedure, { ours, chapters, choices, ask }),
    ]),
  );
}
