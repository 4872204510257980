import type { Case } from '../../model';
import { mapped, type Work } from '../../turns';
import {
  energyOf,
  eventsOf,
  factsOf,
  protectedSeenOf,
  positionOf,
  wholeHandsOf,
  type CaseReaders,
} from './case-content';
import { readersOf } from './case-readers';
import { cellOf, type ColumnSet } from '../table/column-set';
import type { Draft, Line } from './draft';
import { blankOf } from '../table/blanks';
import { handsOf } from './hands';
import { inLists, type Finished, type FinishedFile } from './in-lists';
import { withJoined, type JoinedFacts } from './join-facts';
import { joinedLines } from '../stretches/join-stretches';
import { newLedger, type Ledger } from '../ledger';
import type { Ask } from '../questions';
import { saysList, sheetHandsOf, sheetListRow } from './sheet-keys';
import { settleWaiting } from '../stretches/waiting-inside';
import { dateOrder, whenOf } from '../table/when';

export type FinishOptions = {
  /** A list sheet: its cases come without times. */
  sheet: boolean;
  set: ColumnSet;
  ours: boolean;
  ask: Ask;
  ledger: Ledger;
  firstSequence: number;
  /** ISO date; `null` where nobody knows it. */
  today: string | null;
  /** Facts of the eye from a second file, with an account of their own. */
  joined: JoinedFacts;
};

/** From times and rows to cases: joined stretches, facts, hands, events, lists and order. */
export function* finish(drafts: readonly Draft[], options: FinishOptions): Work<FinishedFile> {
  const { set, ask, ledger } = options;
  settleWaiting(drafts, options.ours, ask, ledger);
  const readers = new Map(
    [...new Set(drafts.map(({ procedure }) => procedure))].map((procedure) => [
      procedure,
      readersOf(procedure, drafts, options),
    ]),
  );
  const days = dateOrder(
    drafts.flatMap(({ rows }) => rows),
    set.own('date'),
    ask,
  );
  const listRow = options.sheet ? sheetListRow(drafts, set) : null;
  const onList = ({ rows }: Draft): Pick<Finished, 'list' | 'when'> => {
    const carried = listRow !== null && rows.every((row) => !saysList(row, set));
    const said = carried ? [listRow] : rows;
    return {
      list: said.map((row) => cellOf(row, set.own('list'))).find((text) => blankOf(text) !== 'empty') ?? '',
      // What is wrong with a date carried over is named where it stands.
      when: whenOf(said, set.own('date'), days, options.today, carried ? newLedger() : ledger),
    };
  };
  const finishOne = (draft: Draft): Finished[] => {
    const reader = readers.get(draft.procedure);
    const lines = joinedLines(draft, ledger);
    if (!reader || (!options.sheet && !lines.some(({ kind }) => kind === 'step'))) return refuseEmpty(draft, ledger);
    const { handsSaid, ...one } = caseOf(draft, lines, reader, options);
    if (options.sheet && !handsSaid && saysNothing(one)) return refuseBlank(draft, ledger);
    for (const { row } of draft.rows) ledger.take(row);
    return [{ draft, case: one, handsSaid, ...onList(draft) }];
  };
  const finished = yield* mapped(drafts, finishOne);
  return inLists(finished.flat(), options);
}

const saysNothing = ({ facts, events, protectedSeen, energy }: Finished['case']): boolean =>
  events === null && energy === null && Object.keys({ ...facts, ...protectedSeen }).length === 0;

function refuseBlank(draft: Draft, ledger: Ledger): [] {
  for (const { row } of draft.rows)
    ledger.refuseRow(row, null, draft.code, 'Nothing is filled in in this row, so nothing of it is taken.');
  return [];
}

function refuseEmpty(draft: Draft, ledger: Ledger): [] {
  for (const { row } of draft.rows)
    if (!ledger.named.has(row))
      ledger.refuseRow(
        row,
        null,
        draft.code,
        'No step time could be read in this case, so nothing of it is taken. Fill in at least one time; an operation that was not timed is counted with its list.',
      );
  return [];
}

function caseOf(
  draft: Draft,
  lines: readonly Line[],
  readers: CaseReaders,
  { sheet, set, ledger, joined }: FinishOptions,
): Finished['case'] & { handsSaid: boolean } {
  const steps = [...new Set(lines.flatMap(({ kind, stepId }) => (kind === 'step' && stepId !== null ? [stepId] : [])))];
  const { hands, said } = sheet
    ? sheetHandsOf(draft.rows, set, readers.stepOf, ledger)
    : fileHands(draft, steps, set, ledger);
  const kept = lines.flatMap(({ kind, reason }) => (kind === 'protected' && reason !== null ? [reason] : []));
  return {
    code: draft.code,
    procedureId: draft.procedure.id,
    position: draft.place ?? positionOf(draft.rows, set, ledger),
    facts: withJoined(factsOf(draft.rows, set, readers, ledger), draft, joined),
    hands,
    handsSaid: said,
    stretches: lines.map(({ stepId, start, end, seconds, kind, reason }) => ({
      stepId,
      start,
      end,
      seconds,
      kind,
      reason,
    })),
    returnsNoted: returnsOf(draft),
    events: eventsOf(draft.rows, set, readers, ledger),
    protectedSeen: protectedSeenOf(draft.rows, set, kept, ledger),
    energy: energyOf(draft.rows, set, ledger),
    recording: null,
    row: draft.rows[0]?.row ?? 0,
  };
}

function fileHands(draft: Draft, steps: readonly string[], set: ColumnSet, ledger: Ledger) {
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
