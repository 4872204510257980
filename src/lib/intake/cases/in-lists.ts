import type { NewCase } from '../../model';
import type { ColumnSet } from '../table/column-set';
import type { Draft } from './draft';
import type { Ledger } from '../ledger';
import { listsOf, type NewList } from './lists';
import type { Ask } from '../questions';
import { timeOrder } from '../table/time-order';

/** A case of another surgeon, for the reference set. `list` only groups. */
export type ReferenceDraft = { reader: `R${number}`; list: number | null; case: NewCase };

/** A finished case with what its rows say of its list. */
export type Finished = {
  draft: Draft;
  case: Omit<NewCase, 'sequence' | 'orderKnown' | 'list'>;
  list: string;
  when: string | null;
  handsSaid: boolean;
};

export type FinishedFile = {
  cases: NewCase[];
  lists: NewList[];
  references: ReferenceDraft[];
  /** Those of the cases for which the file says whose hands. */
  handsSaid: ReadonlySet<NewCase>;
};

type OrderOptions = { sheet: boolean; set: ColumnSet; ask: Ask; ledger: Ledger; firstSequence: number };

/** Finished cases put into their order in time and on their lists; those of other surgeons apart. */
export function inLists(finished: readonly Finished[], options: OrderOptions): FinishedFile {
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
    options.sheet,
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
      protectedSeen: {},
      energy: null,
      list: null,
      sequence: index + 1,
      orderKnown: false,
    },
  }));
}
