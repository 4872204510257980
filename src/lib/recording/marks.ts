import type { Edit, MarkedAnswer, MarkedEvent, MarkedHands, RowKind } from './edit';

/** One unbroken interval as marked so far; `to` is `null` while it runs. Seconds of the recording. */
export type Row = {
  row: number;
  kind: RowKind;
  /** `null` only for waiting between steps. */
  stepId: string | null;
  reason: string | null;
  from: number;
  to: number | null;
};

/** What the edits so far amount to. */
export type Marks = {
  rows: readonly Row[];
  /** Protected part → seen. */
  seen: Readonly<Record<string, boolean>>;
  events: readonly MarkedEvent[];
  hands: Readonly<Record<string, MarkedHands>>;
  answers: Readonly<Record<string, MarkedAnswer>>;
};

/** Every edit in order, and how many of them hold: what was undone waits behind them to be done again. */
export type Log = { readonly edits: readonly Edit[]; readonly holds: number };

export const emptyLog: Log = { edits: [], holds: 0 };

/** A whole millisecond: what is shown, stored and written to a file is then one number. */
export const toMillisecond = (seconds: number): number => Math.round(seconds * 1000) / 1000;

/** One more edit; what had been undone is gone, as everywhere where something is typed after an undo. */
export const edited = ({ edits, holds }: Log, edit: Edit): Log => ({
  edits: [...edits.slice(0, holds), edit],
  holds: holds + 1,
});

export const canUndo = ({ holds }: Log): boolean => holds > 0;
export const canRedo = ({ edits, holds }: Log): boolean => holds < edits.length;
export const undone = (log: Log): Log => (canUndo(log) ? { ...log, holds: log.holds - 1 } : log);
export const redone = (log: Log): Log => (canRedo(log) ? { ...log, holds: log.holds + 1 } : log);

const nothing: Marks = { rows: [], seen: {}, events: [], hands: {}, answers: {} };

/** The marks that the edits amount to. An edit of a row that is not there, or that would turn one round, does nothing. */
export function marksOf({ edits, holds }: Log): Marks {
  let begun = 0;
  let marks = nothing;
  for (const edit of edits.slice(0, holds)) {
    marks = applied(marks, edit, begun);
    if (edit.do === 'open' || edit.do === 'typed') begun += 1;
  }
  return marks;
}

function applied(marks: Marks, edit: Edit, next: number): Marks {
  const changed = (row: number, change: (one: Row) => Row): Marks => ({
    ...marks,
    rows: marks.rows.map((one) => (one.row === row ? change(one) : one)),
  });
  switch (edit.do) {
    case 'open':
    case 'typed': {
      const { kind, stepId, reason } = edit;
      const [from, to] = edit.do === 'open' ? [edit.at, null] : [edit.from, edit.to];
      if (to !== null && to <= from) return marks;
      return { ...marks, rows: [...marks.rows, { row: next, kind, stepId, reason, from, to }] };
    }
    case 'close':
      return changed(edit.row, (one) => (one.to === null && edit.at > one.from ? { ...one, to: edit.at } : one));
    case 'move':
      return changed(edit.row, (one) => moved(one, edit.edge, edit.at));
    case 'reason':
      return changed(edit.row, (one) => ({ ...one, reason: edit.reason }));
    case 'remove':
      return { ...marks, rows: marks.rows.filter(({ row }) => row !== edit.row) };
    case 'seen':
      return { ...marks, seen: put(marks.seen, edit.partId, edit.seen) };
    case 'event':
      return { ...marks, events: [...marks.events, edit.event] };
    case 'no-event':
      return { ...marks, events: marks.events.filter((_, at) => at !== edit.event) };
    case 'hands':
      return { ...marks, hands: put(marks.hands, edit.stepId, edit.hands) };
    case 'answer':
      return { ...marks, answers: put(marks.answers, edit.checkpointId, edit.answer) };
    default:
      return edit satisfies never;
  }
}

function moved(one: Row, edge: 'from' | 'to', at: number): Row {
  if (edge === 'from') return one.to === null || at < one.to ? { ...one, from: at } : one;
  return at > one.from ? { ...one, to: at } : one;
}

function put<T>(all: Readonly<Record<string, T>>, key: string, value: T | null): Readonly<Record<string, T>> {
  const others = Object.entries(all).filter(([other]) => other !== key);
  // By entries, because a key may be any text: `__proto__` is then a key like every other.
  return Object.fromEntries(value === null ? others : [...others, [key, value]]);
}

/** The interval of this kind that runs: the last one begun. */
export const running = ({ rows }: Marks, kind: RowKind): Row | null =>
  rows.findLast((one) => one.kind === kind && one.to === null) ?? null;
