import { itemAt } from '../../item-at';
import type { NewCase } from '../../model';
import { parted, type Steps } from '../../turns';
import type { Context } from '../context';
import type { Table } from '../headings/table';
import { timeOrder } from '../table/time-order';
import { namesSeveralDays } from '../table/dates';
import { weights } from '../weights';
import type { Finished } from './finish';
import { listsOf, type NewList } from './lists';

export type InLists = {
  cases: NewCase[];
  lists: NewList[];
  /** Those of the cases for which the file says whose hands. */
  handsSaid: ReadonlySet<NewCase>;
};

/** The surgeon's own cases put into their order in time and on their lists. */
export function* inLists(
  finished: readonly Finished[],
  table: Pick<Table, 'layout' | 'set'> | null,
  { ask, ledger }: Pick<Context, 'ask' | 'ledger'>,
  firstSequence: number,
): Steps<InLists> {
  const mine = finished.filter(({ draft }) => draft.role === 'me');
  const { order, known } = yield* timeOrder(mine, table?.layout === 'sheet', ask);
  const inOrder: Finished[] = [];
  for (const part of parted(order)) {
    yield part.length * weights.row;
    for (const index of part) {
      inOrder.push(itemAt(mine, index));
    }
  }
  const { keys, lists, unnamed } = yield* listsOf(inOrder);
  if (unnamed > 0)
    ledger.query(
      null,
      table?.set.own('list')?.heading ?? null,
      null,
      `${unnamed} list names may name a person and are not kept; the lists are numbered.`,
    );
  for (const { label } of lists)
    if (label !== null && namesSeveralDays(label))
      ledger.query(
        null,
        table?.set.own('list')?.heading ?? null,
        label,
        'This list is named by more than one day. A list is one session: how lists vary is what certainty is counted from. Give each its own name or day.',
      );
  const cases: NewCase[] = [];
  const handsSaid = new Set<NewCase>();
  for (const [index, one] of inOrder.entries()) {
    yield weights.row;
    const made = { ...one.case, list: keys[index] ?? null, sequence: firstSequence + index, orderKnown: known };
    cases.push(made);
    if (one.handsSaid) handsSaid.add(made);
  }
  return { cases, lists, handsSaid };
}
