import type { Case, NewCase, Procedure } from '../model';
import { mapped, type Work } from '../turns';
import {
  energyOf,
  eventsOf,
  factReaders,
  factsOf,
  keptSeenOf,
  positionOf,
  wholeHandsOf,
  type CaseReaders,
} from './case-content';
import { cellOf, type ColumnSet } from './column-set';
import type { Draft, Line } from './draft';
import { blankOf } from './blanks';
import { eventReader } from './events';
import { handsOf } from './hands';
import { withJoined, type JoinedFacts } from './join-facts';
import { joinedLines } from './join-stretches';
import { labelMatcher } from './labels';
import type { Ledger } from './ledger';
import { listsOf, type NewList } from './lists';
import { moreFacts } from './more-facts';
import type { Ask } from './questions';
import { sheetEvents, sheetHandsOf } from './sheet-keys';
import { timeOrder } from './time-order';
import { settleWaiting } from './waiting-inside';
import { dateOrder, whenOf } from './when';
import { yesNo } from './yes-no';

/** A case of another surgeon, for the reference set. `list` only groups. */
export type ReferenceDraft = { reader: `R${number}`; list: number | null; case: NewCase };

type Finished = {
  draft: Draft;
  case: Omit<NewCase, 'sequence' | 'orderKnown' | 'list'>;
  list: string;
  when: string | null;
  handsSaid: boolean;
};

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

export type FinishedFile = {
  cases: NewCase[];
  lists: NewList[];
  references: ReferenceDraft[];
  /** Those of the cases for which the file says whose hands. */
  handsSaid: ReadonlySet<NewCase>;
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
  const finishOne = (draft: Draft): Finished[] => {
    const reader = readers.get(draft.procedure);
    const lines = joinedLines(draft, ledger);
    if (!reader || (!options.sheet && !lines.some(({ kind }) => kind === 'step'))) return refuseEmpty(draft, ledger);
    const { handsSaid, ...one } = caseOf(draft, lines, reader, options);
    if (options.sheet && !handsSaid && saysNothing(one)) return refuseBlank(draft, ledger);
    for (const { row } of draft.rows) ledger.take(row);
    const list = draft.rows.map((row) => cellOf(row, set.own('list'))).find((text) => blankOf(text) !== 'empty') ?? '';
    return [
      {
        draft,
        case: one,
        handsSaid,
        list,
        when: whenOf(draft.rows, set.own('date'), days, options.today, ledger),
      },
    ];
  };
  const finished = yield* mapped(drafts, finishOne);
  return ordered(finished.flat(), options);
}

function readersOf(
  procedure: Procedure,
  drafts: readonly Draft[],
  { sheet, set, ask, ours }: FinishOptions,
): CaseReaders {
  const labels = labelMatcher(procedure, ours);
  const stepOf = (label: string): string | null => {
    const [meaning, other] = labels(label).meanings;
    return meaning?.kind === 'step' && !other ? meaning.stepId : null;
  };
  const events = eventReader(procedure, { stepOf, ours, seriousGuess: seriousGuess(drafts, set, ask) });
  return {
    facts: factReaders(procedure),
    events: sheet ? sheetEvents(events) : events,
    stepOf,
    more: moreFacts(procedure),
  };
}

/** Where nothing says how serious events were, it is asked; until then they count as serious. */
function seriousGuess(drafts: readonly Draft[], set: ColumnSet, ask: Ask): boolean {
  const column = set.own('event');
  if (!column || set.own('event-serious')) return true;
  const named = drafts.flatMap(({ rows }) =>
    rows.filter(
      (row) =>
        cellOf(row, column) !== '' &&
        !/^(none|no|nil|uneventful|no (events?|complications?))$/i.test(cellOf(row, column)) &&
        (yesNo(cellOf(row, column)) ?? true),
    ),
  );
  if (named.length === 0) return true;
  return (
    ask({
      id: 'serious',
      question: 'No column says how serious the events were. How are they taken?',
      options: [
        { value: 'yes', label: 'as serious: each waits for your review' },
        { value: 'no', label: 'as not serious' },
      ],
      guess: 'yes',
      examples: named.map((row) => ({ row: row.row, text: cellOf(row, column) })),
    }) === 'yes'
  );
}

const saysNothing = ({ facts, events, keptSeen, energy }: Finished['case']): boolean =>
  events === null && energy === null && Object.keys({ ...facts, ...keptSeen }).length === 0;

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
  const kept = lines.flatMap(({ kind, reason }) => (kind === 'kept' && reason !== null ? [reason] : []));
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
    wentBackNoted: wentBackOf(draft),
    events: eventsOf(draft.rows, set, readers, ledger),
    keptSeen: keptSeenOf(draft.rows, set, kept, ledger),
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
function wentBackOf({ wentBack, rows }: Draft): Case['wentBackNoted'] {
  const taken = new Set(rows.map(({ row }) => row));
  const counts = new Map<string, number>();
  for (const { row, stepId, count } of wentBack)
    if (taken.has(row)) counts.set(stepId, Math.max(count, counts.get(stepId) ?? 0));
  return Object.fromEntries(counts);
}

function ordered(finished: readonly Finished[], options: FinishOptions): FinishedFile {
  const { set, ask, ledger } = options;
  const mine = finished.filter(({ draft }) => draft.role === 'me');
  const { order, known } = timeOrder(
    mine.map(({ draft, case: one, list, when }) => ({
      row: one.row,
      code: draft.code,
      when,
      list: list || null,
      position: one.position,
    })),
    ask,
  );
  const inOrder = order.flatMap((index) => mine[index] ?? []);
  const { keys, lists, unnamed } = listsOf(
    inOrder.map(({ list, when, draft }) => ({ list, when, listNumber: draft.listNumber })),
  );
  if (unnamed > 0)
    ledger.query(
      null,
      set.own('list')?.heading ?? null,
      null,
      `${unnamed} list names may name a person and are not kept; the lists are numbered.`,
    );
  const cases = inOrder.map(({ case: one }, index): NewCase => ({
    ...one,
    list: keys[index] ?? null,
    sequence: options.firstSequence + index,
    orderKnown: known,
  }));
  const handsSaid = new Set(cases.filter((_, index) => inOrder[index]?.handsSaid));
  return { cases, lists, references: referencesOf(finished), handsSaid };
}

function referencesOf(finished: readonly Finished[]): ReferenceDraft[] {
  const others = finished.filter(({ draft }) => draft.role !== 'me');
  const { keys, lists } = listsOf(
    others.map(({ list, when, draft }) => ({
      list: list === '' ? '' : `${draft.role} ${list}`,
      when,
      listNumber: draft.listNumber,
    })),
  );
  const numbers = new Map(lists.map(({ key }, index) => [key, index + 1]));
  return others.map(({ draft, case: one }, index) => ({
    reader: draft.role === 'me' ? 'R1' : draft.role,
    list: numbers.get(keys[index] ?? '') ?? null,
    // Of others nothing goes in but times and facts.
    case: {
      ...one,
      code: `reference ${index + 1}`,
      position: null,
      events: null,
      keptSeen: {},
      energy: null,
      list: null,
      sequence: index + 1,
      orderKnown: false,
    },
  }));
}
