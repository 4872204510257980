import type { Procedure } from '../model';
import { cellsOf, type Sheet } from './cells';
import { cellOf, columnSet, type ColumnSet, type Row } from './column-set';
import type { Draft } from './draft';
import { headingMatcher, type Layout } from './headings';
import { labelMatcher } from './labels';
import { planLabels, type LabelPlan, type LabelUse } from './label-plan';
import type { Ledger } from './ledger';
import { nameMatcher } from './name-matcher';
import { headingPointsToAPerson } from './people';
import type { Ask } from './questions';
import { readCases } from './read-cases';
import { readStretches } from './read-stretches';
import { newCodesWanted, rowFacts, type RowFacts } from './row-facts';
import { intakeThresholds } from './thresholds';
import { isOurs } from './write-headings';

export type Table = {
  layout: Layout;
  procedure: Procedure;
  set: ColumnSet;
  plans: readonly LabelPlan[];
  drafts: Draft[];
  rowsIn: number;
  ours: boolean;
};

type Context = {
  taken: ReadonlySet<string>;
  procedures: readonly Procedure[];
  choices: Readonly<Record<string, string>>;
  ask: Ask;
  ledger: Ledger;
};

/** A sheet in either layout: finds its headings, its procedure and its cases. `null`: it cannot be read, and the ledger says why. */
export function readTable(text: string, context: Context): Table | null {
  const { ledger, ask, choices } = context;
  const sheet = cellsOf(text);
  if (sheet.brokenQuoteRow !== null)
    ledger.query(
      sheet.brokenQuoteRow,
      null,
      null,
      'A quotation mark is opened here and never closed; quotation marks are read as plain signs. Close it if a cell holds a line break.',
    );
  const found = findHeadings(sheet, context.procedures);
  if (!found) return nothing(sheet, ledger);
  const { headings, layout, body, above } = found;
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
  const procedure = mainProcedure(headings, body, layout, context);
  const set = columnSet(headings, body, procedure, layout, choices, ask, ledger);
  namePeople(set, ledger);
  const code = codeColumn(set, layout, ledger);
  if (code === 'missing') return null;
  const rows = rowFacts(body, headings, set, code.index, ask, ledger);
  const freshCode = code.index === null || newCodesWanted(rows, code.person, ask) ? codeMaker(context.taken) : null;
  const ours = isOurs(headings);
  const base = { layout, procedure, set, rowsIn: body.length + above.length, ours };
  const procedureOf = procedureReader(rows, set, procedure, context);
  const known = rows.filter((row) => procedureOf(row) !== null);
  if (layout === 'cases') {
    const fitting = known.filter((row) => procedureOf(row) === procedure || refuseOther(row, set, procedure, ledger));
    return { ...base, plans: [], drafts: readCases(fitting, set, procedure, freshCode, ask, ledger) };
  }
  const plans = labelPlans(known, set, (row) => procedureOf(row) ?? procedure, ours, context);
  const drafts = readStretches(known, set, (row) => procedureOf(row) ?? procedure, plans, freshCode, ask, ledger);
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

type Found = { headings: readonly string[]; layout: Layout; body: Row[]; above: Row[] };

/** The row that says most: titles and blank rows may stand above it. */
function findHeadings({ rows }: Sheet, procedures: readonly Procedure[]): Found | null {
  let best: { at: number; score: number; layout: Layout } | null = null;
  for (const [at, { cells }] of rows.slice(0, intakeThresholds.headingRows).entries())
    for (const layout of ['stretches', 'cases'] as const) {
      const score = Math.max(...procedures.map((procedure) => headingScore(cells, procedure, layout)));
      if (score > (best?.score ?? 1)) best = { at, score, layout };
    }
  if (!best) return null;
  return {
    headings: rows[best.at]?.cells ?? [],
    layout: best.layout,
    body: rows.slice(best.at + 1),
    above: rows.slice(0, best.at),
  };
}

/** How many headings are understood, if together they make a layout; 0 if they do not. */
function headingScore(cells: readonly string[], procedure: Procedure, layout: Layout): number {
  const match = headingMatcher(procedure, layout);
  const targets = cells.filter((cell) => cell !== '').map((cell) => match(cell).targets[0]);
  const own = (id: string) => targets.some((target) => target?.what === 'own' && target.id === id);
  const steps = targets.filter((target) => target?.what.startsWith('step-')).length;
  const makes = layout === 'stretches' ? own('step') && (own('start') || own('end') || own('seconds')) : steps > 0;
  // A file with a step column is one of stretches, whatever else its headings might name.
  return makes
    ? targets.filter((target) => target && target.what !== 'leave').length + (layout === 'stretches' ? 100 : 0)
    : 0;
}

function nothing({ rows }: Sheet, ledger: Ledger): null {
  const first = rows[0];
  ledger.refuseCell(
    first?.row ?? null,
    null,
    first ? first.cells.join(' · ').slice(0, 120) : null,
    first
      ? 'No headings were understood. The first row must name the columns: case_id, step and start_s, end_s or seconds; or case_id and one column for each step.'
      : 'The file is empty. Bring in a file with one row for each stretch or case, under headings.',
  );
  return null;
}

/** The procedure whose names fit best, unless a column says it; asked, so that it can be corrected. */
function mainProcedure(
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
  if (layout === 'cases') {
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

function procedureReader(
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
  { choices, ask }: Context,
) {
  const uses = new Map<Procedure, Map<string, LabelUse>>();
  for (const facts of rows) {
    const label = cellOf(facts.row, set.own('step'));
    if (label === '') continue;
    const ofProcedure = uses.get(procedureOf(facts)) ?? new Map<string, LabelUse>();
    uses.set(procedureOf(facts), ofProcedure);
    const use = ofProcedure.get(label) ?? { label, rows: [] };
    ofProcedure.set(label, use);
    use.rows.push(facts.row.row);
  }
  return new Map(
    [...uses].map(([procedure, labels]) => [
      procedure,
      planLabels([...labels.values()], procedure, { ours, choices, ask }),
    ]),
  );
}
