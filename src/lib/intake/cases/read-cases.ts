import { mapped, type Work } from '../../turns';
import type { Context } from '../context';
import { cellOf, type Column, type ColumnSet } from '../headings/column-set';
import type { Table } from '../headings/table';
import type { Ledger } from '../ledger';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';
import { parseDuration, toMilliseconds } from '../table/duration';
import type { FileFacts } from '../table/row-facts';
import {
  areReadings,
  blankMeaning,
  noteBlank,
  timeReader,
  type BlanksSeen,
  type TimeReader,
} from '../table/time-cells';
import { casesOfRows, type CaseRows } from './case-keys';
import type { Draft, Line } from './draft';
import { readHands, WHOSE_HANDS } from './hands';

type OfStep = { stepId: string; column: Column };

/** One row a case, one column a step. */
export function* readCases(
  { set, layout }: Table,
  { rows, freshCodes }: FileFacts,
  context: Context,
): Work<{ drafts: Draft[]; plans: [] }> {
  const { ask, ledger } = context;
  const times = ofSteps(set, 'step-time');
  const ends = new Map(ofSteps(set, 'step-end').map(({ stepId, column }) => [stepId, column]));
  const pairs = ofSteps(set, 'step-start').flatMap(({ stepId, column }) => {
    const end = ends.get(stepId);
    return end ? [{ stepId, start: column, end }] : [];
  });
  const waits = ofSteps(set, 'step-waiting');
  const blanks: BlanksSeen = new Map();
  const inOrder = yield* mapped(
    rows,
    ({ row }) => {
      for (const { column } of times) noteBlank(blanks, row.row, cellOf(row, column));
      return { row: row.row, values: times.flatMap(({ column }) => valueOf(row, column)) };
    },
    CASES_A_SLICE,
  );
  const rising = pairs.length === 0 && (yield* areReadings(inOrder, ask));
  const sheet = yield* mapped(rows, ({ row }) => row);
  const lengths = [...times, ...waits].map(({ column }) => column);
  const read = yield* timeReader(sheet, lengths, rising, ask);
  const clocks = pairs.flatMap(({ start, end }) => [start, end]);
  const readClock = yield* timeReader(sheet, clocks, true, ask);
  const blank = blankMeaning(blanks, ask);
  const keyed = yield* mapped(rows, (facts) => ({ ...facts, label: '', start: null, end: null }));
  const placesSaid = layout === 'sheet' && set.own('position') !== undefined;
  const file = { oneRowACase: true, placesSaid, codeHeading: set.own('case')?.heading ?? null, freshCodes };
  const toDraft = ({ role, code, procedure, rows: [{ row }], listNumber, place }: CaseRows) => {
    const draft: Draft = {
      role,
      code,
      listNumber,
      place,
      procedure,
      rows: [row],
      lines: [],
      broken: [],
      hands: [],
      returns: [],
    };
    if (rising) readRising(draft, row, times, read, blank, ledger);
    else for (const { stepId, column } of times) addLine(draft, row, stepId, column, 'step', read, ledger);
    for (const pair of pairs) addPair(draft, row, pair, readClock, ledger);
    for (const { stepId, column } of waits) addLine(draft, row, stepId, column, 'waiting', read, ledger);
    sayOfSteps(draft, row, set, ledger);
    return draft;
  };
  return { drafts: yield* mapped(yield* casesOfRows(keyed, file, context), toDraft, CASES_A_SLICE), plans: [] };
}

/** A case may have three hundred cells. */
const CASES_A_SLICE = 20;

function ofSteps(set: ColumnSet, what: Column['target']['what']): OfStep[] {
  return set.columns.flatMap((column) =>
    column.target.what === what && 'id' in column.target ? [{ stepId: column.target.id, column }] : [],
  );
}

function valueOf(row: Row, column: Column): number[] {
  const read = parseDuration(cellOf(row, column), { as: 'reading' });
  return 'seconds' in read && blankOf(cellOf(row, column)) === null ? [read.seconds] : [];
}

const line = (
  row: Row,
  column: Column,
  stepId: string,
  times: Pick<Line, 'start' | 'end' | 'seconds'>,
  kind: Line['kind'] = 'step',
): Line => ({
  row: row.row,
  column: column.heading,
  written: cellOf(row, column),
  stepId,
  kind,
  reason: null,
  ...times,
});

function addLine(
  draft: Draft,
  row: Row,
  stepId: string,
  column: Column,
  kind: 'step' | 'waiting',
  read: TimeReader,
  ledger: Ledger,
): void {
  const text = cellOf(row, column);
  if (blankOf(text) !== null) return;
  const found = read(text, column, 'length');
  if ('seconds' in found)
    draft.lines.push(line(row, column, stepId, { start: null, end: null, seconds: found.seconds }, kind));
  else refuse(draft, row, column, stepId, found.problem, ledger);
}

function refuse(draft: Draft, row: Row, column: Column, stepId: string, why: string, ledger: Ledger): void {
  ledger.refuseCell(row.row, column.heading, cellOf(row, column), why);
  draft.broken.push({ row: row.row, stepIds: [stepId] });
}

/** Readings of one clock: a length is a reading less the one before; after a step not timed the next length is not known. */
function readRising(
  draft: Draft,
  row: Row,
  times: readonly OfStep[],
  read: TimeReader,
  blank: ReturnType<typeof blankMeaning>,
  ledger: Ledger,
): void {
  let clock: number | null = 0;
  for (const { stepId, column } of times) {
    const text = cellOf(row, column);
    const left = blankOf(text);
    if (left !== null) {
      if (blank(left) === 'not-timed') clock = null;
      continue;
    }
    const found = read(text, column, 'reading');
    if ('problem' in found || (clock !== null && found.seconds <= clock)) {
      refuse(
        draft,
        row,
        column,
        stepId,
        'problem' in found ? found.problem : `The reading ${text} is not later than the one before it. Check both.`,
        ledger,
      );
      clock = null;
      continue;
    }
    if (clock === null)
      refuse(
        draft,
        row,
        column,
        stepId,
        'The reading before this one is missing, so the length of this step is not known. Fill it in, or say that the step before was not done.',
        ledger,
      );
    else
      draft.lines.push(
        line(row, column, stepId, { start: clock, end: found.seconds, seconds: toMilliseconds(found.seconds - clock) }),
      );
    clock = found.seconds;
  }
}

function addPair(
  draft: Draft,
  row: Row,
  { stepId, start, end }: { stepId: string; start: Column; end: Column },
  read: TimeReader,
  ledger: Ledger,
): void {
  const [from, to] = [cellOf(row, start), cellOf(row, end)];
  if (blankOf(to) !== null && blankOf(from) !== null) return;
  const [begin, stop] = [read(from, start, 'reading'), read(to, end, 'reading')];
  if ('problem' in begin) return refuse(draft, row, start, stepId, begin.problem, ledger);
  if ('problem' in stop) return refuse(draft, row, end, stepId, stop.problem, ledger);
  const seconds = toMilliseconds(stop.seconds - begin.seconds);
  if (seconds <= 0)
    return refuse(draft, row, end, stepId, `The end (${to}) is not after the start (${from}). Check both.`, ledger);
  draft.lines.push(line(row, end, stepId, { start: begin.seconds, end: stop.seconds, seconds }));
}

/** Whose hands, and how often returned to, step by step. */
function sayOfSteps(draft: Draft, row: Row, set: ColumnSet, ledger: Ledger): void {
  for (const { stepId, column } of ofSteps(set, 'step-hands')) {
    const hands = readHands(cellOf(row, column));
    if (hands === undefined) ledger.refuseCell(row.row, column.heading, null, WHOSE_HANDS);
    if (hands !== null) draft.hands.push({ row: row.row, stepId, hands: hands ?? 'shared' });
  }
  for (const { stepId, column } of ofSteps(set, 'step-returned-to')) {
    const count = cellOf(row, column);
    if (/^\d{1,3}$/.test(count))
      draft.returns.push({ row: row.row, column: column.heading, stepId, count: Number(count) });
    else if (blankOf(count) === null)
      ledger.refuseCell(
        row.row,
        column.heading,
        count,
        `"${count}" is not a count. Write how often the step was returned to, or leave it empty.`,
      );
  }
}
