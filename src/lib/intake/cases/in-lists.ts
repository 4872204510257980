import type { NewCase } from '../../model';
import { mapped, type Work } from '../../turns';
import type { ColumnSet } from '../headings/column-set';
import type { Draft } from './draft';
import type { Ledger } from '../ledger';
import { listsOf, type NewList, type OnList } from './lists';
import type { Ask } from '../questions';
import { timeOrder, type Ordered } from '../table/time-order';

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
export function* inLists(finished: readonly Finished[], options: OrderOptions): Work<FinishedFile> {
  const { set, ask, ledger } = options;
  const mine = finished.filter(({ draft }) => draft.role === 'me');
  const toOrder = ({ draft, case: one, list, when }: Finished): Ordered => ({
    row: one.row,
    code: draft.code,
    when,
    list: list || null,
    position: one.position,
  });
  const { order, known } = yield* timeOrder(yield* mapped(mine, toOrder), options.sheet, ask);
  const inOrder = order.flatMap((index) => mine[index] ?? []);
  const { keys, lists, unnamed } = yield* listsOf(yield* mapped(inOrder, onList));
  if (unnamed > 0)
    ledger.query(
      null,
      set.own('list')?.heading ?? null,
      null,
      `${unnamed} list names may name a person and are not kept; the lists are numbered.`,
    );
  const handsSaid = new Set<NewCase>();
  const cases = yield* mapped(inOrder, ({ case: one, handsSaid: said }, index): NewCase => {
    const sequence = options.firstSequence + index;
    const made = { ...one, list: keys[index] ?? null, sequence, orderKnown: known };
    if (said) handsSaid.add(made);
    return made;
  });
  return { cases, lists, references: yield* referencesOf(finished), handsSaid };
}

const onList = ({ list, when, draft: { listNumber } }: Finished): OnList => ({ list, when, listNumber });

function* referencesOf(finished: readonly Finished[]): Work<ReferenceDraft[]> {
  const others = finished.filter(({ draft }) => draft.role !== 'me');
  const { keys, lists } = yield* listsOf(
    yield* mapped(others, (one) => ({ ...onList(one), list: one.list && `${one.draft.role} ${one.list}` })),
  );
  const numbers = new Map(lists.map(({ key }, index) => [key, index + 1]));
  const reference = ({ draft, case: one }: Finished, index: number): ReferenceDraft => ({
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
  });
  return yield* mapped(others, reference);
}
