import type { Case, Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import type { Context } from '../context';
import { cellOf, type ColumnSet } from '../headings/column-set';
import type { Table } from '../headings/table';
import { newLedger, type Ledger } from '../ledger';
import { joinedLines } from '../stretches/join-stretches';
import { settleWaiting } from '../stretches/waiting-inside';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';
import { dateOrder, whenOf } from '../table/when';
import {
  energyOf,
  eventsOf,
  factsOf,
  positionOf,
  protectedSeenOf,
  wholeHandsOf,
  type CaseReaders,
} from './case-content';
import { readersOf, takenAsSerious } from './case-readers';
import type { Draft, Line } from './draft';
import { handsOf } from './hands';
import { inLists, type Finished, type FinishedFile } from './in-lists';
import { withJoined, type JoinedFacts } from './join-facts';
import { saysList, sheetHandsOf, sheetListRow } from './sheet-keys';

type FinishOptions = {
  context: Context;
  firstSequence: number;
  /** Facts of the eye from a second file, with an account of their own. */
  joined: JoinedFacts;
};

/** From times and rows to cases: joined stretches, facts, hands, events, lists and order. */
export function* finish(
  drafts: readonly Draft[],
  { set, ours, layout }: Pick<Table, 'set' | 'ours' | 'layout'>,
  { context, firstSequence, joined }: FinishOptions,
): Work<FinishedFile> {
  const { ask, ledger, today } = context;
  // A list sheet: its cases come without times.
  const sheet = layout === 'sheet';
  yield* settleWaiting(drafts, ours, ask, ledger);
  const seriousGuess = yield* takenAsSerious(drafts, set, ask);
  const readers = new Map<Procedure, CaseReaders>();
  const readersFor = (procedure: Procedure): CaseReaders => {
    const found = readers.get(procedure) ?? readersOf(procedure, { sheet, ours, seriousGuess });
    readers.set(procedure, found);
    return found;
  };
  const rows: Row[] = [];
  yield* mapped(drafts, (draft) => rows.push(...draft.rows));
  const days = yield* dateOrder(rows, set.own('date'), ask);
  const listRow = sheet ? yield* sheetListRow(rows, set) : null;
  const onList = (draft: Draft): Pick<Finished, 'list' | 'when'> => {
    const carried = listRow !== null && draft.rows.every((row) => !saysList(row, set));
    const said = carried ? [listRow] : draft.rows;
    return {
      list: said.map((row) => cellOf(row, set.own('list'))).find((text) => blankOf(text) !== 'empty') ?? '',
      // A problem with a date carried over from another row is named at that row.
      when: whenOf(said, set.own('date'), days, today, carried ? newLedger() : ledger),
    };
  };
  const finishOne = (draft: Draft): Finished | null => {
    const lines = joinedLines(draft, ledger);
    if (!sheet && !lines.some(({ kind }) => kind === 'step')) return refuseEmpty(draft, ledger);
    const { hands, said } = sheet
      ? sheetHandsOf(draft.rows, set, readersFor(draft.procedure).stepOf, ledger)
      : fileHands(draft, lines, set, ledger);
    const one = caseOf(draft, lines, hands, readersFor(draft.procedure), set, joined, ledger);
    if (sheet && !said && saysNothing(one)) return refuseBlank(draft, ledger);
    for (const { row } of draft.rows) ledger.take(row);
    return { draft, case: one, handsSaid: said, ...onList(draft) };
  };
  const finished = yield* mapped(drafts, finishOne, CASES_A_SLICE);
  return yield* inLists(
    finished.filter((one) => one !== null),
    { sheet, set, ask, ledger, firstSequence },
  );
}

const CASES_A_SLICE = 20;

const saysNothing = ({ facts, events, protectedSeen, energy }: Finished['case']): boolean =>
  events === null && energy === null && Object.keys({ ...facts, ...protectedSeen }).length === 0;

function refuseBlank(draft: Draft, ledger: Ledger): null {
  for (const { row } of draft.rows)
    ledger.refuseRow(row, null, draft.code, 'Nothing is filled in on this row, so nothing is taken from it.');
  return null;
}

function refuseEmpty(draft: Draft, ledger: Ledger): null {
  for (const { row } of draft.rows)
    if (!ledger.named.has(row))
      ledger.refuseRow(
        row,
        null,
        draft.code,
        'No step time could be read in this case, so nothing is taken from it. Fill in at least one time; an operation that was not timed is counted with its list.',
      );
  return null;
}

function caseOf(
  draft: Draft,
  lines: readonly Line[],
  hands: Case['hands'],
  readers: CaseReaders,
  set: ColumnSet,
  joined: JoinedFacts,
  ledger: Ledger,
): Finished['case'] {
  const { rows } = draft;
  const kept = lines.flatMap(({ kind, reason }) => (kind === 'protected' && reason !== null ? [reason] : []));
  return {
    code: draft.code,
    procedureId: draft.procedure.id,
    position: draft.place ?? positionOf(rows, set, ledger),
    facts: withJoined(factsOf(rows, set, readers, ledger), draft, joined),
    hands,
    stretches: lines.map(({ stepId, start, end, seconds, kind, reason }) => ({
      stepId,
      start,
      end,
      seconds,
      kind,
      reason,
    })),
    returnsNoted: returnsOf(draft),
    events: eventsOf(rows, set, readers, ledger),
    protectedSeen: protectedSeenOf(rows, set, kept, ledger),
    energy: energyOf(rows, set, ledger),
    recording: null,
    row: rows[0]?.row ?? 0,
  };
}

function fileHands(draft: Draft, lines: readonly Line[], set: ColumnSet, ledger: Ledger) {
  const steps = [...new Set(lines.flatMap(({ kind, stepId }) => (kind === 'step' && stepId !== null ? [stepId] : [])))];
  const whole = wholeHandsOf(draft.rows, set, draft.hands.length > 0, ledger);
  return { hands: handsOf(draft.hands, whole, steps), said: whole !== null || draft.hands.length > 0 };
}

/** Counts noted in several rows of one step: the largest, since people note a running count or repeat it. */
function returnsOf({ returns, rows }: Draft): Case['returnsNoted'] {
  const taken = new Set(rows.map(({ row }) => row));
  const counts = new Map<string, number>();
  for (const { row, stepId, count } of returns)
    if (taken.has(row)) counts.set(stepId, Math.max(count, counts.get(stepId) ?? 0));
  return Object.fromEntries(counts);
}
