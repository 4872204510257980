import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import { casesOfRows, type CaseRows, type Keyed } from '../cases/case-keys';
import type { Draft } from '../cases/draft';
import type { Context } from '../context';
import { cellOf, type ColumnSet } from '../headings/column-set';
import type { Table } from '../headings/table';
import { labelUses, planLabels, type LabelPlan } from '../labels/label-plan';
import { placeLabels } from '../labels/place-labels';
import { parseDuration } from '../table/duration';
import type { FileFacts, RowFacts } from '../table/row-facts';
import { areReadings, blankMeaning, noteBlank, timeReader, type BlanksSeen } from '../table/time-cells';
import { draftOf, isInformation, type Read } from './stretch-drafts';
import { rowMeanings, rowTimes } from './stretch-rows';

/** Cases as far as their rows alone make them, and what each label was taken for. */
export type Drafts = { drafts: Draft[]; plans: LabelPlan[] };

/**
 * One row a stretch: sorts rows into cases, reads each, and lets its place decide where a label names several steps.
 * `null`: the column of steps is none, and the ledger says so.
 */
export function* readStretches(
  { set, ours }: Table,
  { rows, freshCodes }: FileFacts,
  context: Context,
): Work<Drafts | null> {
  const { ask, ledger, choices, chapters } = context;
  const uses = yield* labelUses(rows, set.own('step'), ledger);
  if (!uses) return null;
  const plans = new Map<Procedure, Map<string, LabelPlan>>();
  for (const [procedure, labels] of uses)
    plans.set(procedure, yield* planLabels([...labels.values()], procedure, { ours, chapters, choices, ask }));
  const rising = !set.own('start') && !set.own('end') && (yield* areReadings(yield* valuesOf(rows, set), ask));
  const read = yield* timeReader(
    yield* mapped(rows, ({ row }) => row),
    (['start', 'end', 'seconds'] as const).flatMap((id) => set.own(id) ?? []),
    rising || Boolean(set.own('end')),
    ask,
  );
  const meaningOf = new Map([...plans.keys()].map((procedure) => [procedure, rowMeanings(procedure)]));
  const inRows = new Map<number, Read>();
  const blanks: BlanksSeen = new Map();
  const keyOf = (facts: RowFacts): Keyed | null => {
    const { row, procedure } = facts;
    const label = cellOf(row, set.own('step'));
    const ofLabel = label === '' && isWaitingRow(facts, set) ? undefined : plans.get(procedure)?.get(label);
    const bare = label === '' && isInformation(facts, set);
    const meaning = bare
      ? { kind: 'step' as const, stepIds: [], reason: null }
      : meaningOf.get(procedure)?.(facts, set, ofLabel, ledger);
    if (!meaning) return null;
    const times = bare ? 'none' : rowTimes(facts, set, read, ledger);
    inRows.set(row.row, { facts, meaning, times, label });
    if (times === 'none' && !bare) noteBlank(blanks, row.row, cellOf(row, set.own('seconds') ?? set.own('end')));
    const span = typeof times === 'object' ? times : { start: null, end: null };
    return { ...facts, label: `${meaning.kind} ${label.toLowerCase()}`, start: span.start, end: span.end };
  };
  const keyed = (yield* mapped(rows, keyOf)).filter((one) => one !== null);
  const blank = blankMeaning(blanks, ask);
  const file = { oneRowACase: false, placesSaid: false, codeHeading: set.own('case')?.heading ?? null, freshCodes };
  const cases = yield* casesOfRows(keyed, file, context);
  const toDraft = (rowsOfCase: CaseRows) => draftOf(rowsOfCase, inRows, set, { rising, blank }, ledger);
  const drafts = yield* placeLabels(yield* mapped(cases, toDraft, CASES_A_SLICE), ask, ledger);
  return { drafts, plans: [...plans.values()].flatMap((one) => [...one.values()]) };
}

/** A case has some ten rows. */
const CASES_A_SLICE = 50;

const isWaitingRow = ({ row }: RowFacts, set: ColumnSet): boolean =>
  /^(w|wait|gap|idle|pause|delay)/i.test(cellOf(row, set.own('kind')));

function* valuesOf(rows: readonly RowFacts[], set: ColumnSet): Work<{ row: number; values: number[] }[]> {
  const cases = new Map<string, { row: number; values: number[] }>();
  yield* mapped(rows, (facts) => {
    const read = parseDuration(cellOf(facts.row, set.own('seconds')), { as: 'reading' });
    if ('problem' in read) return;
    const key = `${facts.role} ${facts.code} ${facts.list} ${facts.date}`;
    const found = cases.get(key) ?? { row: facts.row.row, values: [] };
    cases.set(key, found);
    found.values.push(read.seconds);
  });
  return [...cases.values()];
}
