import type { Procedure } from '../../model';
import { parted, type Steps } from '../../turns';
import { casesOfRows } from '../cases/case-keys';
import type { Draft } from '../cases/draft';
import type { Context } from '../context';
import { cellOf, type ColumnSet } from '../headings/column';
import type { Table } from '../headings/table';
import { planLabels, type LabelPlan } from '../labels/label-plan';
import { labelUses } from '../labels/label-uses';
import { placeLabels, type Working } from '../labels/place-labels';
import { blankMeaning } from '../table/blank-meaning';
import { parseDuration } from '../table/duration';
import { areReadings } from '../table/readings';
import type { FileFacts, RowFacts } from '../table/row-facts';
import type { TimesRead } from '../rows-read';
import { timeReader } from '../table/time-cells';
import { weights } from '../weights';
import { draftOf } from './stretch-drafts';
import { stretchRows } from './stretch-rows';

/** Cases as far as their rows alone make them, and what each label was taken for. */
export type Drafts = { drafts: Draft[]; plans: LabelPlan[]; times: TimesRead };

/**
 * One row a stretch: reads each row, sorts rows into cases, and lets its place decide where a label names several steps.
 * `null`: the column of steps is none, and the ledger says so.
 */
export function* readStretches(
  { set, ours, chapters }: Table,
  { rows, freshCodes }: FileFacts,
  context: Context,
): Steps<Drafts | null> {
  const { ask, ledger, choices } = context;
  const uses = yield* labelUses(rows, set.own('step'), ledger);
  if (!uses) return null;
  const plans = new Map<Procedure, Map<string, LabelPlan>>();
  for (const [procedure, labels] of uses)
    plans.set(procedure, yield* planLabels([...labels.values()], procedure, { ours, chapters, choices, ask }));
  const rising = !set.own('start') && !set.own('end') && (yield* areReadings(yield* valuesOf(rows, set), ask));
  const columns = (['start', 'end', 'seconds'] as const).flatMap((id) => set.own(id) ?? []);
  const read = yield* timeReader(rows, columns, rising || Boolean(set.own('end')), ask);
  const { readRows, blanks } = yield* stretchRows(rows, set, plans, read, context);
  const blank = blankMeaning(blanks, false, ask);
  const file = { oneRowACase: false, placesSaid: false, codeHeading: set.own('case')?.heading ?? null, freshCodes };
  const unplaced: Working[] = [];
  for (const ofCase of yield* casesOfRows(readRows, file, context)) {
    yield weights.case;
    unplaced.push(draftOf(ofCase, set, { rising, blank }, ledger));
  }
  const drafts = yield* placeLabels(unplaced, ask, ledger);
  const all = [...plans.values()].flatMap((one) => [...one.values()]);
  return { drafts, plans: all, times: { read, readClock: read, blank } };
}

/** The numbers of each case in the order of its rows: a clock only rises. */
function* valuesOf(rows: readonly RowFacts[], set: ColumnSet): Steps<{ row: number; values: number[] }[]> {
  const cases = new Map<string, { row: number; values: number[] }>();
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const { row, role, code, list, date } of part) {
      const read = parseDuration(cellOf(row, set.own('seconds')), { as: 'reading' });
      if ('problem' in read) continue;
      const key = `${role} ${code} ${list} ${date}`;
      const found = cases.get(key) ?? { row: row.row, values: [] };
      cases.set(key, found);
      found.values.push(read.seconds);
    }
  }
  return [...cases.values()];
}
