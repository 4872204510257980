import Papa from 'papaparse';
import type { Steps } from '../../turns';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';
import { unharmed } from './harmless';

/** Cells as text, with the row number a spreadsheet would show: the first line of the file is row 1. */
export type Row = { row: number; cells: readonly string[] };

export type Sheet = {
  rows: readonly Row[];
  delimiter: string;
  brokenQuoteRow: number | null;
  /** Chapter marks of one recording, written as a sheet. */
  chapters: boolean;
};

/** Why a text is no sheet that can be read: it is above a limit, say. */
export type NoSheet = { problem: string; row: number | null };

/**
 * Text to cells: comma, semicolon or tab; quoted cells may hold line breaks. Nothing is turned into numbers.
 * Empty rows are passed over but keep their place in the count.
 */
export function* cellsOf(text: string): Steps<Sheet | NoSheet> {
  // A first line "sep=;" is for the spreadsheet, which does not show it.
  const named = /^sep=([,;\t])\r?\n/i.exec(text.slice(0, 10));
  const body = named ? text.slice(named[0].length) : text;
  const delimiter = named?.[1] ?? delimiterOf(body);
  const parsed = yield* parsing(body, delimiter, '"');
  if (!('brokenQuoteRow' in parsed)) return parsed;
  const { brokenQuoteRow } = parsed;
  // An opened quotation mark that is never closed would swallow the rest of the file: then marks are plain signs.
  const plain = brokenQuoteRow === null ? parsed : yield* parsing(body, delimiter, '\u0000');
  return 'problem' in plain ? plain : { rows: plain.rows, delimiter, brokenQuoteRow, chapters: false };
}

/** Letters parsed in one go: some milliseconds, whatever they are. */
const A_SLICE = 50_000;

/** A part of the text at a time, as far as its rows are whole; a row longer than that is looked for in a longer part. */
function* parsing(
  text: string,
  delimiter: string,
  quoteChar: string,
): Steps<Pick<Sheet, 'rows' | 'brokenQuoteRow'> | NoSheet> {
  const { longestRow, mostLines } = intakeThresholds;
  const start = { delimiter, quoteChar, preview: 1, fastMode: false };
  const newline = Papa.parse<string[]>(text.slice(0, A_SLICE), start).meta.linebreak as '\n';
  // Where no quotation mark stands in a part, the library takes its own quick way.
  const parser = new Papa.Parser({ delimiter, quoteChar, newline });
  const rows: Row[] = [];
  let line = 0;
  for (let from = 0, letters = A_SLICE; from < text.length; yield weights.part) {
    const last = from + letters >= text.length;
    const { data, errors, meta } = parser.parse(text.slice(from, from + letters), 0, !last) as Papa.ParseResult<
      string[]
    >;
    for (const written of data) {
      line += 1;
      if (written.length === 1 && written[0] === '') continue;
      const row = { row: line, cells: trimmed(written) };
      const problem = tooMuch(row, rows.length);
      if (problem !== null) return { problem, row: line };
      if (row.cells.length > 0) rows.push(row);
    }
    if (errors.some(({ code }) => code === 'MissingQuotes')) return { rows, brokenQuoteRow: line };
    if (line > mostLines)
      return { row: line, problem: `The file has more than ${grouped(mostLines)} lines. ${BY_PARTS}` };
    from += meta.cursor;
    if (data.length > 0) letters = A_SLICE;
    else if (letters < longestRow) letters = longestRow;
    else if (quoteChar === '"' && text.slice(from, from + letters).includes('"'))
      return { rows, brokenQuoteRow: line + 1 };
    else
      return {
        row: line + 1,
        problem: `This row is longer than ${grouped(longestRow)} letters, which is the most that is read. Is this a table, one row a line?`,
      };
  }
  return { rows, brokenQuoteRow: null };
}

/** Without the empty cells at its end: a sheet has them as far as its widest row. */
function trimmed(written: string[]): string[] {
  // In place: a large file has a million cells, and a copy of each row costs as much as its parsing.
  for (let at = 0; at < written.length; at += 1) written[at] = unharmed((written[at] ?? '').trim());
  while (written.at(-1) === '') written.pop();
  return written;
}

const BY_PARTS = 'Bring it in by parts, or take out what is no table of times.';
const grouped = (count: number): string => String(count).replace(/\B(?=(\d{3})+$)/g, ',');

function tooMuch({ cells }: Row, rowsBefore: number): string | null {
  const { mostRows, mostColumns, longestCell } = intakeThresholds;
  if (cells.length > mostColumns)
    return `This row has ${grouped(cells.length)} columns; at most ${grouped(mostColumns)} are read. Take out the columns that are no steps, times or facts of the eye.`;
  const longest = cells.reduce((most, { length }) => Math.max(most, length), 0);
  if (longest > longestCell)
    return `A cell of this row has ${grouped(longest)} letters; at most ${grouped(longestCell)} are read. Is a quotation mark missing, or one too many?`;
  return rowsBefore >= mostRows && cells.length > 0
    ? `The file has more than ${grouped(mostRows)} rows, which is the most that is read. ${BY_PARTS}`
    : null;
}

/** The sign that stands equally often in most lines; of two such, the one that seldom stands inside a cell. */
function delimiterOf(text: string): string {
  // Quoted cells first: a line break inside one would tear it, and its signs are text.
  const bare = text.slice(0, 20_000).replace(/"[^"]*"/g, 'x');
  const lines = bare
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, 12);
  const alike = (sign: string): number => {
    const counts = new Map<number, number>();
    for (const line of lines) {
      const count = line.split(sign).length - 1;
      if (count > 0) counts.set(count, (counts.get(count) ?? 0) + 1);
    }
    return Math.max(0, ...counts.values());
  };
  const best = ['\t', ';', ','].map((sign) => ({ sign, lines: alike(sign) }));
  return best.reduce((one, other) => (other.lines > one.lines ? other : one), { sign: ',', lines: 0 }).sign;
}
