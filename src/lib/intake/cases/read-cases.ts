import type { Steps } from '../../turns';
import type { Context } from '../context';
import { cellOf, type Column, type ColumnSet } from '../headings/column';
import type { Table } from '../headings/table';
import { blankMeaning, noteBlank, type BlanksSeen } from '../table/blank-meaning';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';
import { parseDuration } from '../table/duration';
import { areReadings } from '../table/readings';
import type { FileFacts } from '../table/row-facts';
import { timeReader } from '../table/time-cells';
import type { TimesRead } from '../rows-read';
import { weights } from '../weights';
import { addLine, addPair, readRising, type OfStep } from './case-cells';
import { casesOfRows } from './case-keys';
import type { Keyed } from './case-rows';
import { newDraft, type Draft } from './draft';
import { handsSaid, sayReturns } from './said-of-step';

/** One row a case, one column a step. */
export function* readCases(
  { set, layout }: Table,
  { rows, freshCodes }: FileFacts,
  context: Context,
): Steps<{ drafts: Draft[]; plans: []; times: TimesRead }> {
  const { ask, ledger } = context;
  const times = ofSteps(set, 'step-time');
  const waits = ofSteps(set, 'step-waiting');
  const [hands, returned] = [ofSteps(set, 'step-hands'), ofSteps(set, 'step-returned-to')];
  const ends = new Map(ofSteps(set, 'step-end').map(({ stepId, column }) => [stepId, column]));
  const pairs = ofSteps(set, 'step-start').flatMap(({ stepId, column }) => {
    const end = ends.get(stepId);
    return end ? [{ stepId, start: column, end }] : [];
  });
  const blanks: BlanksSeen = new Map();
  const values: { row: number; values: number[] }[] = [];
  const keyed: Keyed[] = [];
  for (const facts of rows) {
    yield weights.cell * (times.length + 1);
    const { row } = facts;
    for (const { column } of times) noteBlank(blanks, row.row, cellOf(row, column));
    values.push({ row: row.row, values: times.flatMap(({ column }) => valueOf(row, column)) });
    keyed.push({ facts, label: '', times: 'none' });
  }
  const rising = pairs.length === 0 && (yield* areReadings(values, ask));
  const lengths = [...times, ...waits].map(({ column }) => column);
  const read = yield* timeReader(rows, lengths, rising, ask);
  const clocks = pairs.flatMap(({ start, end }) => [start, end]);
  const readClock = yield* timeReader(rows, clocks, true, ask);
  const blank = blankMeaning(blanks, rising, ask);
  const placesSaid = layout === 'sheet' && set.own('position') !== undefined;
  const file = { oneRowACase: true, placesSaid, codeHeading: set.own('case')?.heading ?? null, freshCodes };
  const drafts: Draft[] = [];
  for (const ofCase of yield* casesOfRows(keyed, file, context)) {
    yield weights.case;
    const draft = newDraft(ofCase);
    const [
      {
        facts: { row },
      },
    ] = ofCase.rows;
    draft.rows.push(row);
    if (rising) readRising(draft, row, times, read, blank, ledger);
    else for (const { stepId, column } of times) addLine(draft, row, stepId, column, 'step', read, ledger);
    for (const pair of pairs) addPair(draft, row, pair, readClock, ledger);
    for (const { stepId, column } of waits) addLine(draft, row, stepId, column, 'waiting', read, ledger);
    for (const { stepId, column } of hands) {
      const said = handsSaid(row, column, ledger);
      if (said !== null) draft.hands.push({ row: row.row, stepId, hands: said });
    }
    for (const { stepId, column } of returned) sayReturns(draft, row, stepId, column, ledger);
    drafts.push(draft);
  }
  return { drafts, plans: [], times: { read, readClock, blank } };
}

function ofSteps(set: ColumnSet, what: Column['target']['what']): OfStep[] {
  return set.columns.flatMap((column) =>
    column.target.what === what && 'id' in column.target ? [{ stepId: column.target.id, column }] : [],
  );
}

function valueOf(row: Row, column: Column): number[] {
  const read = parseDuration(cellOf(row, column), { as: 'reading' });
  return 'seconds' in read && blankOf(cellOf(row, column)) === null ? [read.seconds] : [];
}
