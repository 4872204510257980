import { prose } from '../format';
import type { FactValue, Procedure } from '../model';
import { parted, type Steps } from '../turns';
import type { CaseReaders } from './cases/case-readers';
import { levelOf } from './cases/yes-no-columns';
import type { HandWords } from './cases/hand-words';
import { HANDS_CALLED, readHands } from './cases/hands';
import { plainWords } from './labels/plain-words';
import type { Column } from './headings/column';
import type { Table } from './headings/table';
import type { LabelPlan } from './labels/label-plan';
import { meaningWords } from './labels/label-plan';
import type { Ledger } from './ledger';
import type { Blank } from './table/blanks';
import type { Row } from './table/cells';
import { blankOf } from './table/blanks';
import { readDate, type DateOrder } from './table/dates';
import { parseDuration } from './table/duration';
import type { TimeReader } from './table/time-cells';
import { yesNo } from './table/yes-no';
import { weights } from './weights';

/** A column as the table of rows shows it. `shown`: what stands under it may be shown; `key`: the field that changes it. */
export type ReadColumn = { index: number; key: string; heading: string; read: boolean; shown: boolean };

/** The rows of a file as they were understood, for a page that shows them. Row numbers are those of a spreadsheet. */
export type RowsRead = {
  columns: ReadColumn[];
  rows: readonly { row: number; cells: readonly string[] }[];
  /** By column: what the cells written so became, where that is not what is written. */
  turned: ReadonlyMap<number, ReadonlyMap<string, string>>;
  /** Rows with such a cell; rows in which a cell is asked about or refused; rows that are not taken. */
  rowsTurned: ReadonlySet<number>;
  rowsAsked: ReadonlySet<number>;
  rowsRefused: ReadonlySet<number>;
  rowsOut: ReadonlySet<number>;
};

/** How the times of a file were read. */
export type TimesRead = { read: TimeReader; readClock: TimeReader; blank: (blank: Blank) => 'not-done' | 'not-timed' };

type How = {
  times: TimesRead;
  plans: readonly LabelPlan[];
  days: DateOrder;
  readers: ReadonlyMap<Procedure, CaseReaders>;
  freshCodes: boolean;
  handsMean: HandWords;
};

/** What became of every different text of every column that is read, and which rows hold one that was turned. */
export function* rowsRead(table: Table, above: readonly Row[], how: How, ledger: Ledger): Steps<RowsRead> {
  const { set, body, code, headings } = table;
  const columns = set.columns.flatMap((column): ReadColumn[] => {
    if (column.heading === '') return [];
    const isCode = column.index === code.column;
    const read = column.target.what !== 'leave' || isCode;
    // Codes that could lead to a patient are replaced, and what points to a person is never read.
    const shown = read && !(isCode && (how.freshCodes || code.person));
    return [{ index: column.index, key: column.key, heading: headings[column.index] ?? '', read, shown }];
  });
  const words = wordsOf(table, how);
  const turned = new Map<number, Map<string, string>>();
  const rowsTurned = new Set<number>();
  const shown = set.columns
    .filter((column) => columns.some(({ index, shown: isShown }) => index === column.index && isShown))
    .map((column) => ({ column, seen: new Map<string, string | null>(), last: '', became: null as string | null }));
  const look = (text: string, of: (typeof shown)[number]): void => {
    const { column, seen } = of;
    let became = seen.get(text);
    if (became === undefined) {
      became = words(column, text);
      if (became === text) became = null;
      seen.set(text, became);
      if (became !== null)
        turned.set(column.index, (turned.get(column.index) ?? new Map<string, string>()).set(text, became));
    }
    [of.last, of.became] = [text, became];
  };
  // Row by row, not column by column: a large file is then gone through once.
  for (const part of parted(body)) {
    yield part.length * weights.cell * shown.length;
    for (const { row, cells } of part)
      for (const of of shown) {
        const text = cells[of.column.index] ?? '';
        if (text === '') continue;
        // The same cell again, as most columns have it for every row of a case.
        if (text !== of.last) look(text, of);
        if (of.became !== null) rowsTurned.add(row);
      }
  }
  const { rows } = ledger;
  return {
    columns,
    rows: [...above, ...body],
    turned,
    rowsTurned,
    rowsAsked: rows.queried,
    rowsRefused: rows.refused,
    rowsOut: ledger.named,
  };
}

/** What a cell became, in words; `null` where it stands as it is, or was not taken. */
function wordsOf({ procedure, ours }: Table, { times, plans, days, readers, handsMean }: How) {
  const labels = new Map(plans.map((plan) => [plan.label, plan]));
  const reader = readers.get(procedure);
  const time = (column: Column, text: string, read: TimeReader, as: 'length' | 'reading'): string | null => {
    const blank = blankOf(text);
    if (blank !== null && (as === 'length' || blank !== 'zero'))
      return times.blank(blank) === 'not-done' ? 'not done' : 'not timed';
    const [found, plain] = [read(text, column, as), parseDuration(text, { as })];
    if (!('seconds' in found) || ('seconds' in plain && plain.seconds === found.seconds)) return null;
    return prose(found.seconds);
  };
  const valueWords = (factId: string, value: FactValue | null): string | null => {
    if (value === null) return 'not entered';
    const fact = procedure.facts.find(({ id }) => id === factId);
    const level = typeof value === 'boolean' ? (value ? 'yes' : 'no') : value;
    return fact?.levels?.find(({ id }) => id === level)?.label ?? String(level);
  };
  const fact = (factId: string, text: string): string | null => {
    const found = reader?.facts.get(factId)?.(text);
    if (!found || 'problem' in found) return null;
    const words = valueWords(factId, found.value);
    return typeof found.value === 'number' || words?.toLowerCase() === text.toLowerCase() ? null : words;
  };
  const event = (text: string): string | null => {
    const read = reader?.events({
      kind: text,
      step: '',
      serious: '',
      nearMiss: '',
      noticed: '',
      reviewedAt: '',
      review: '',
    });
    if (!read) return null;
    if (read.events === null) return 'not answered';
    const kinds = read.events.map(({ kind }) => procedure.eventKinds.find(({ id }) => id === kind)?.label ?? kind);
    const words = kinds.join('; ') || 'none';
    return words.toLowerCase() === text.toLowerCase() ? null : words;
  };
  const own = (column: Column, id: string, text: string): string | null => {
    switch (id) {
      case 'step': {
        const plan = labels.get(text);
        if (!plan || plan.how === 'exact' || plan.meanings.length === 0) return null;
        return plan.meanings.map((meaning) => meaningWords(meaning, procedure)).join(' or ');
      }
      case 'seconds':
        return time(column, text, times.read, 'length');
      case 'start':
      case 'end':
        return time(column, text, times.read, 'reading');
      case 'date': {
        const read = readDate(text, days);
        return read.kind === 'problem' ? null : read.kind === 'date' ? read.date : read.month;
      }
      case 'event':
        return event(text);
      case 'hands':
      case 'case-hands':
        return handsBecame(text, handsMean);
      default:
        return null;
    }
  };
  return (column: Column, text: string): string | null => {
    const { target } = column;
    if (ours) return null;
    switch (target.what) {
      case 'own':
        return own(column, target.id, text);
      case 'fact':
        return fact(target.id, text);
      case 'level': {
        const [of, said] = [levelOf(column), yesNo(text)];
        if (!of || said === undefined || said === null) return null;
        const isYesNo = procedure.facts.find(({ id }) => id === of.factId)?.kind === 'yes-no';
        if (isYesNo) return valueWords(of.factId, !said);
        return said ? valueWords(of.factId, of.level) : null;
      }
      case 'step-time':
      case 'step-waiting':
        return time(column, text, times.read, 'length');
      case 'step-start':
      case 'step-end':
        return time(column, text, times.readClock, 'reading');
      case 'step-hands':
        return handsBecame(text, handsMean);
      default:
        return null;
    }
  };
}

function handsBecame(text: string, mean: HandWords): string | null {
  const hands = mean.get(plainWords(text)) ?? readHands(text);
  if (hands === null) return null;
  const words = HANDS_CALLED[hands ?? 'shared'];
  return words === text.toLowerCase() ? null : words;
}
