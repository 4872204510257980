import { same, type Case, type Goal, type ListRecord, type Reflection } from '../../../model';
import { kindOf, type DocumentName, type Ledger } from '../documents';
import { frozen } from '../frozen';
import { refuseIfKept } from './cases';
import { asked } from './erase';

type Numbered<Row> = { next: number; records: readonly Row[] };
type Versioned = { id: string; version: number };

/** Restored: when, and as of which change, in words for the history of a case. */
export type Restoring = { now: string; what: string };

const none = { next: 1, records: [] };

/**
 * A document as it stood, fit to stand again: numbers given since are not given twice, counts of what was erased stay, and a
 * record that differs gets a version that no page opened before has seen.
 * @throws StorageError `kept-as-it-is`
 */
export function asRestored(name: DocumentName, then: object | null, now: object | null, how: Restoring): object | null {
  switch (kindOf(name)) {
    case 'cases':
      return shard((then ?? none) as Numbered<Case>, now as Numbered<Case> | null, (was, is) => {
        if (is?.keptAsItIs && was && same(content({ ...was, keptAsItIs: is.keptAsItIs }), content(is))) return is;
        if (is) refuseIfKept(is, null);
        return was && { ...was, history: [...(is ?? was).history, { at: how.now, what: how.what }] };
      });
    case 'reflections':
      return shard((then ?? none) as Numbered<Reflection>, now as Numbered<Reflection> | null, (was, is) => {
        if (!was || !is || (was.saw === is.saw && was.willTry === is.willTry)) return was;
        return { ...was, history: [...is.history, { at: how.now, saw: is.saw, willTry: is.willTry }] };
      });
    case 'lists':
      return numbered((then ?? none) as Numbered<ListRecord>, now as Numbered<ListRecord> | null, (was, is) =>
        is?.erased && !same(is.erased, was.erased) ? asked({ ...was, erased: is.erased }) : was,
      );
    case 'goals':
      return numbered((then ?? none) as Numbered<Goal>, now as Numbered<Goal> | null, (was, is) =>
        is?.erased ? { ...was, erased: is.erased } : was,
      );
    case 'results':
      return numbered((then ?? none) as Numbered<{ id: string }>, now as Numbered<{ id: string }> | null, (was) => was);
    case 'ledger': {
      const [was, is] = [then as Ledger | null, now as Ledger | null];
      if (!was || !is) return is ?? was;
      const next = {
        import: Math.max(was.next.import, is.next.import),
        reference: Math.max(was.next.reference, is.next.reference),
      };
      return frozen({ ...was, next, erasedCases: Math.max(was.erasedCases, is.erasedCases) });
    }
    default:
      return then;
  }
}

function numbered<Row extends { id: string }>(
  then: Numbered<Row>,
  now: Numbered<Row> | null,
  restored: (was: Row, is: Row | undefined) => Row,
): object {
  const current = new Map(now?.records.map((row) => [row.id, row]));
  const records = then.records.map((was) => restored(was, current.get(was.id)));
  return frozen({ next: Math.max(then.next, now?.next ?? 1), records });
}

function shard<Row extends Versioned>(
  then: Numbered<Row>,
  now: Numbered<Row> | null,
  restored: (was: Row | null, is: Row | null) => Row | null,
): object {
  const current = new Map(now?.records.map((row) => [row.id, row]));
  const records = then.records.map((was) => {
    const is = current.get(was.id) ?? null;
    current.delete(was.id);
    if (is && same(content(is), content(was))) return is;
    const row = restored(was, is) ?? was;
    return row === is ? is : { ...row, version: Math.max(was.version, is?.version ?? 0) + 1 };
  });
  for (const gone of current.values()) restored(null, gone);
  return frozen({ next: Math.max(then.next, now?.next ?? 1), records });
}

const content = <Row extends Versioned>(row: Row) => ({ ...row, version: 0, history: [] });
