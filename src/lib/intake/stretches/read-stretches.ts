import type { Procedure } from '../../model';
import { mapped, scaled, type Work } from '../../turns';
import { casesOfRows, type CaseRows, type Keyed } from '../cases/case-keys';
import { cellOf, type ColumnSet } from '../table/column-set';
import type { Draft } from '../cases/draft';
import { parseDuration } from '../table/duration';
import type { LabelPlan } from '../labels/label-plan';
import type { Ledger } from '../ledger';
import { placeLabels } from '../labels/place-labels';
import type { Ask } from '../questions';
import type { RowFacts } from '../table/row-facts';
import { draftOf, isInformation, type Read } from './stretch-drafts';
import { rowMeanings, rowTimes } from './stretch-rows';
import { areReadings, blankMeaning, timeReader } from '../table/time-cells';

/** One row a stretch: sorts rows into cases, reads each, and lets its place decide where a label names several steps. */
export function* readStretches(
  rows: readonly RowFacts[],
  set: ColumnSet,
  procedureOf: (row: RowFacts) => Procedure,
  plans: ReadonlyMap<Procedure, ReadonlyMap<string, LabelPlan>>,
  freshCode: (() => string) | null,
  ask: Ask,
  ledger: Ledger,
): Work<Draft[]> {
  const stepColumn = set.own('step');
  const timeColumns = (['start', 'end', 'seconds'] as const).flatMap((id) => set.own(id) ?? []);
  const rising = !set.own('start') && !set.own('end') && areReadings(valuesOf(rows, set), ask);
  const read = timeReader(
    rows.map(({ row }) => row),
    timeColumns,
    rising || Boolean(set.own('end')),
    ask,
  );
  const meaningOf = new Map([...plans.keys()].map((procedure) => [procedure, rowMeanings(procedure)]));
  const inRows = new Map<number, Read>();
  const keyOf = (facts: RowFacts): Keyed | null => {
    const procedure = procedureOf(facts);
    const label = cellOf(facts.row, stepColumn);
    const ofLabel = label === '' && isWaitingRow(facts, set) ? undefined : plans.get(procedure)?.get(label);
    const bare = label === '' && isInformation(facts, set);
    const meaning = bare
      ? { kind: 'step' as const, stepIds: [], reason: null }
      : meaningOf.get(procedure)?.(facts, set, ofLabel, ledger);
    if (!meaning) return null;
    const times = bare ? 'none' : rowTimes(facts, set, read, ledger);
    inRows.set(facts.row.row, { facts, procedure, meaning, times, label });
    const span = typeof times === 'object' ? times : { start: null, end: null };
    return { ...facts, label: `${meaning.kind} ${label.toLowerCase()}`, start: span.start, end: span.end };
  };
  const keyed = (yield* scaled(mapped(rows, keyOf), 0, 0.4)).filter((one) => one !== null);
  const blank = blankMeaning(withoutTime(inRows, set), ask);
  const file = { oneRowACase: false, placesSaid: false, codeHeading: set.own('case')?.heading ?? null, freshCode };
  const cases = yield* scaled(casesOfRows(keyed, file, ask, ledger), 0.4, 0.6);
  const toDraft = (rowsOfCase: CaseRows) => draftOf(rowsOfCase, inRows, set, { rising, blank }, ledger);
  const drafts = yield* scaled(mapped(cases, toDraft), 0.6, 0.8);
  yield* scaled(placeLabels(drafts, ask, ledger), 0.8, 1);
  return drafts.map(({ draft }) => draft);
}

const isWaitingRow = ({ row }: RowFacts, set: ColumnSet): boolean =>
  /^(w|wait|gap|idle|pause|delay)/i.test(cellOf(row, set.own('kind')));

function valuesOf(rows: readonly RowFacts[], set: ColumnSet): { row: number; values: number[] }[] {
  const cases = new Map<string, { row: number; values: number[] }>();
  for (const facts of rows) {
    const read = parseDuration(cellOf(facts.row, set.own('seconds')), { as: 'reading' });
    if ('problem' in read) continue;
    const key = `${facts.role} ${facts.code} ${facts.list} ${facts.date}`;
    const found = cases.get(key) ?? { row: facts.row.row, values: [] };
    found.values.push(read.seconds);
    cases.set(key, found);
  }
  return [...cases.values()];
}

const withoutTime = (rows: ReadonlyMap<number, Read>, set: ColumnSet) =>
  [...rows.values()]
    .filter(({ times, facts, label }) => times === 'none' && !(isInformation(facts, set) && label === ''))
    .map(({ facts }) => ({ row: facts.row.row, text: cellOf(facts.row, set.own('seconds') ?? set.own('end')) }));
