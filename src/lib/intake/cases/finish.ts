import { parted, type Steps } from '../../turns';
import type { Procedure } from '../../model';
import type { Context } from '../context';
import type { Table } from '../headings/table';
import type { Ledger } from '../ledger';
import { joinedLines } from '../stretches/join-stretches';
import { settleWaiting } from '../stretches/waiting-inside';
import { dateOrder } from '../table/date-order';
import type { DateOrder } from '../table/dates';
import type { Row } from '../table/cells';
import { weights } from '../weights';
import { contentOf, type CaseContent } from './case-content';
import { readersOf, type CaseReaders } from './case-readers';
import type { ValuePlan } from './fact-values';
import type { Draft, Line } from './draft';
import { handsOfCase } from './hands-of-case';
import type { JoinedFacts } from './join-facts';
import { listOf, sheetListRow } from './list-of-case';
import { sheetHandsOf } from './sheet-keys';

/** A finished case with what its rows say of its list. */
export type Finished = {
  draft: Draft;
  case: CaseContent;
  list: string;
  when: string | null;
  handsSaid: boolean;
};

/** The cases, and how what the file left open was read: shown to be changed. */
export type AllFinished = {
  finished: Finished[];
  values: ValuePlan[];
  readers: ReadonlyMap<Procedure, CaseReaders>;
  days: DateOrder;
};

/** From times and rows to cases: what the file leaves open first, then case by case its stretches, hands, content and list. */
export function* finish(
  drafts: readonly Draft[],
  table: Table,
  context: Context,
  joined: JoinedFacts,
): Steps<AllFinished> {
  const { ask, ledger, today } = context;
  const { set, ours } = table;
  // A list sheet: its cases come without times.
  const sheet = table.layout === 'sheet';
  yield* settleWaiting(drafts, ours, ask, ledger);
  const timed = yield* withLines(drafts, sheet, ledger);
  const { readers, values } = yield* readersOf([...timed.keys()], table, context);
  const rows: Row[] = [];
  for (const part of parted(drafts)) {
    yield part.length * weights.row;
    for (const draft of part) {
      rows.push(...draft.rows);
    }
  }
  const days = yield* dateOrder(rows, set.own('date'), ask);
  const sheetRow = sheet ? yield* sheetListRow(rows, set) : null;
  const finished: Finished[] = [];
  const finishOne = (draft: Draft, lines: readonly Line[]): void => {
    const ofCase = readers.get(draft.procedure);
    if (!ofCase) return;
    const { hands, said } = sheet
      ? sheetHandsOf(draft.rows, set, ofCase.stepOf, ledger)
      : handsOfCase(draft, lines, set, ledger);
    const content = contentOf(draft, lines, hands, ofCase, set, joined, ledger);
    if (sheet && !said && saysNothing(content)) return refuseBlank(draft, ledger);
    for (const { row } of draft.rows) ledger.take(row);
    const list = listOf(draft.rows, set, sheetRow, { days, today, ledger });
    finished.push({ draft, case: content, handsSaid: said, ...list });
  };
  for (const [draft, lines] of timed) {
    yield weights.case;
    finishOne(draft, lines);
  }
  return { finished, values, readers, days };
}

/** The cases of which something is left, with their times: what is asked of the file's cases is asked of these alone. */
function* withLines(drafts: readonly Draft[], sheet: boolean, ledger: Ledger): Steps<Map<Draft, Line[]>> {
  const timed = new Map<Draft, Line[]>();
  for (const part of parted(drafts)) {
    yield part.length * weights.case;
    for (const draft of part) {
      const lines = joinedLines(draft, ledger);
      if (sheet || lines.some(({ kind }) => kind === 'step')) timed.set(draft, lines);
      else refuseEmpty(draft, ledger);
    }
  }
  return timed;
}

const saysNothing = ({ facts, events, protectedSeen, energy }: CaseContent): boolean =>
  events === null && energy === null && Object.keys({ ...facts, ...protectedSeen }).length === 0;

function refuseBlank(draft: Draft, ledger: Ledger): void {
  for (const { row } of draft.rows)
    ledger.refuseRow(row, null, draft.code, 'Nothing is filled in on this row, so nothing is taken from it.');
}

function refuseEmpty(draft: Draft, ledger: Ledger): void {
  for (const { row } of draft.rows)
    if (!ledger.named.has(row))
      ledger.refuseRow(
        row,
        null,
        draft.code,
        'No step time could be read in this case, so nothing is taken from it. Fill in at least one time; an operation that was not timed is counted with its list.',
      );
}
