import type { AuditReading, Mapping, RowsRead } from '../../intake';
import type { Problem } from '../../model';

/** What the table of rows shows: all of them, or those of one kind. */
export const rowKinds = ['all', 'turned', 'asked', 'refused', 'out'] as const;
export type RowKind = (typeof rowKinds)[number];

export const kindOfRows = (text: string | null): RowKind => rowKinds.find((kind) => kind === text) ?? 'all';

type Mark = 'plain' | 'turned' | 'asked' | 'refused';

export type RowsView = {
  /** Columns that are read, in the order of the file, each with the field that changes its heading. */
  columns: readonly { key: string; heading: string; value: string; to: string }[];
  kinds: readonly { kind: RowKind; words: string; rows: number; now: boolean }[];
  rows: readonly {
    row: number;
    /** `fixed`: it cannot be taken, whatever is ticked. */
    take: 'yes' | 'left' | 'fixed';
    cells: readonly { text: string; became: string | null; mark: Mark }[];
    /** What is said of this row. */
    remarks: readonly string[];
  }[];
  /** Places of the first and last row shown, counted from 1; 0 where none is. */
  from: number;
  to: number;
  of: number;
  page: number;
  pages: number;
};

/** Rows on a page: as many as a person looks through, and no more than a page can bear. */
const A_PAGE = 25;

const WORDS: Record<RowKind, string> = {
  all: 'all rows',
  turned: 'with a value turned into another',
  asked: 'with something asked about',
  refused: 'with a value left out',
  out: 'left out whole',
};

/**
 * A page of the rows of a file as they were understood. Every count is of rows, and of all rows of the file, whatever is
 * shown; the rows left out are those the button counts.
 *
 * @param odd asked about beside what the reading asks
 */
export function rowsView(
  reading: Pick<AuditReading, 'rows' | 'problems' | 'mapping'>,
  odd: readonly Problem[],
  left: ReadonlySet<number>,
  wish: { kind: RowKind; page: number },
): RowsView | null {
  const { rows: read, mapping } = reading;
  if (!read) return null;
  const problems = byRow([...reading.problems, ...odd]);
  const asked = new Set([...read.rowsAsked, ...odd.flatMap(({ row }) => (row === null ? [] : [row]))]);
  const is: Record<RowKind, (row: number) => boolean> = {
    all: () => true,
    turned: (row) => read.rowsTurned.has(row) && !read.rowsOut.has(row),
    asked: (row) => asked.has(row) && !read.rowsOut.has(row),
    refused: (row) => read.rowsRefused.has(row) && !read.rowsOut.has(row),
    out: (row) => read.rowsOut.has(row),
  };
  const count = (kind: RowKind) => read.rows.filter(({ row }) => is[kind](row)).length;
  const wished = read.rows.filter(({ row }) => is[wish.kind](row));
  const pages = Math.max(1, Math.ceil(wished.length / A_PAGE));
  const page = Math.min(Math.max(1, wish.page), pages);
  const shown = wished.slice((page - 1) * A_PAGE, page * A_PAGE);
  const columns = read.columns.filter((column) => column.read);
  return {
    columns: columns.map(({ key, heading }) => headingOf(key, heading, mapping)),
    kinds: rowKinds.map((kind) => ({ kind, words: WORDS[kind], rows: count(kind), now: kind === wish.kind })),
    rows: shown.map(({ row, cells }) => ({
      row,
      take: left.has(row) ? 'left' : read.rowsOut.has(row) ? 'fixed' : 'yes',
      cells: columns.map((column) => cellView(column, cells[column.index] ?? '', problems.get(row) ?? [], read)),
      remarks: (problems.get(row) ?? []).map(remarkOf),
    })),
    from: shown.length === 0 ? 0 : (page - 1) * A_PAGE + 1,
    to: (page - 1) * A_PAGE + shown.length,
    of: wished.length,
    page,
    pages,
  };
}

function headingOf(key: string, heading: string, mapping: readonly Mapping[]): RowsView['columns'][number] {
  const mapped = mapping.find((one) => one.key === key);
  return { key, heading, value: mapped?.value ?? 'leave', to: mapped?.to ?? '' };
}

function cellView(
  { index, heading, shown }: RowsRead['columns'][number],
  text: string,
  problems: readonly Problem[],
  { turned }: RowsRead,
): RowsView['rows'][number]['cells'][number] {
  if (!shown) return { text: text === '' ? '' : 'not shown', became: null, mark: 'plain' };
  const said = problems.filter(({ column }) => column === heading);
  const became = turned.get(index)?.get(text) ?? null;
  const mark: Mark = said.some(({ weight }) => weight === 'refused')
    ? 'refused'
    : said.length > 0
      ? 'asked'
      : became !== null
        ? 'turned'
        : 'plain';
  return { text: text.slice(0, 80), became: mark === 'refused' ? null : became, mark };
}

const remarkOf = ({ column, why }: Problem): string => (column === null ? why : `${column}: ${why}`);

function byRow(problems: readonly Problem[]): Map<number, Problem[]> {
  const found = new Map<number, Problem[]>();
  for (const problem of problems) {
    if (problem.row === null) continue;
    const ofRow = found.get(problem.row);
    if (ofRow) ofRow.push(problem);
    else found.set(problem.row, [problem]);
  }
  return found;
}
