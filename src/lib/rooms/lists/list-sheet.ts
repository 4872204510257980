import { textPointsToAPerson, writeSheet, type NewList } from '../../intake';
import type { Case, ListRecord, Procedure } from '../../model';
import { timedSteps } from '../cases/typed-times';
import { eyeFields } from '../forms/eye-fields';
import { whenText } from '../forms/list-fields';

type Key = { key: string; label: string };
const NONE: Key = { key: '0', label: 'none' };

/** A sheet to fill in by hand between cases, in the order in which it is typed afterwards. Its first page has no column for a time. */
export type ListSheet = {
  procedure: { id: string; name: string };
  rows: number;
  columns: readonly { label: string; keys: readonly Key[] }[];
  more: readonly Key[];
  /** For a second sheet of times: the steps of the operation, or those the surgeon notes. */
  steps: readonly string[];
};

/** Headings of the first two columns, before those of the facts, and of the last, which say where the sheet belongs. */
const PLACE = ['Place', 'Own code'] as const;
const BELONGS = ['List', 'Date', 'Procedure'] as const;

/** Rows a sheet may have; anything else asked for is the first. */
export const SHEET_ROWS = [20, 25, 40] as const;
export const sheetRows = (asked: string | null): number => SHEET_ROWS.find((rows) => String(rows) === asked) ?? 20;

export function listSheet(procedure: Procedure, rows: number, noted: readonly string[] = []): ListSheet {
  const { row, more } = eyeFields(procedure);
  return {
    procedure: { id: procedure.id, name: procedure.name },
    rows,
    columns: [
      ...row.map(({ label, options, unit }) => ({
        label: unit ? `${label} (${unit})` : label,
        keys: options.map(({ key, label: means }) => ({ key, label: means })),
      })),
      ...(more.length > 0 ? [{ label: 'Anything else', keys: [NONE, { key: '…', label: 'letters below' }] }] : []),
      {
        label: 'Hands',
        keys: [
          { key: 'O', label: 'all my own' },
          { key: 'B', label: 'both: some not mine' },
          { key: 'T', label: 'taken over' },
        ],
      },
      { label: 'Event', keys: [NONE, { key: 'E', label: 'event' }] },
    ],
    more: more.map(({ key, label }) => ({ key, label })),
    steps: timedSteps(procedure).flatMap(({ id, label }) => (noted.length === 0 || noted.includes(id) ? [label] : [])),
  };
}

/** What the sheet says of its list: its name (or number, or the code of its record) and its day or month. */
export type SheetList = { list: string; date: string };

/**
 * The same sheet as a CSV to fill in on a computer and bring in like any other file. With the cases of a list their
 * places and codes stand in it already, and in every row the list, so that a case added comes to that list.
 */
export function listSheetCsv(
  { procedure, columns, rows }: ListSheet,
  cases: readonly Pick<Case, 'code' | 'position'>[],
  { list, date }: SheetList = { list: '', date: '' },
): string {
  const headings = [...PLACE, ...columns.map(({ label }) => label), ...BELONGS];
  const blank = columns.map(() => '');
  const row = (place: number, code: string) => [String(place), code, ...blank, list, date, procedure.id];
  const filled = cases.map(({ code, position }, index) => row(position ?? index + 1, code));
  const empty = Array.from({ length: rows }, (_, index) => row(index + 1, ''));
  return writeSheet(headings, cases.length > 0 ? filled : empty);
}

/** A list as its sheet names it. Where that would not lead back to this list alone, by the code of its record. */
export function sheetListOf(list: ListRecord, lists: readonly ListRecord[]): SheetList {
  const { list: name, date } = plainly(list);
  const alone = lists.every((other) => other.id === list.id || !same(plainly(other), { list: name, date }));
  const told = name !== '' || list.when.kind === 'date';
  return { list: told && alone && !textPointsToAPerson(name) ? name : list.id, date };
}

/** The list of the record that a sheet brought in belongs to; `null` where it is another. */
export function listOfSheet(coming: NewList, lists: readonly ListRecord[]): string | null {
  const said = plainly(coming);
  return lists.find((list) => same(sheetListOf(list, lists), said))?.id ?? null;
}

const same = (one: SheetList, other: SheetList): boolean => one.list === other.list && one.date === other.date;

const plainly = ({ label, when }: Pick<ListRecord, 'label' | 'when'>): SheetList => ({
  list: label ?? (when.kind === 'number' ? whenText(when) : ''),
  date: when.kind === 'date' || when.kind === 'month' ? whenText(when) : '',
});
