import Papa from 'papaparse';
import { mapped, scaled, type Work } from '../../turns';
import { unharmed } from './harmless';

/** Cells as text, with the row number a spreadsheet would show: the first line of the file is row 1. */
export type Sheet = {
  rows: readonly { row: number; cells: readonly string[] }[];
  delimiter: string;
  brokenQuoteRow: number | null;
};

/**
 * Text to cells: comma, semicolon or tab; quoted cells may hold line breaks. Nothing is turned into numbers.
 * Empty rows are passed over but keep their place in the count.
 */
export function* cellsOf(text: string): Work<Sheet> {
  // A first line "sep=;" is for the spreadsheet, which does not show it.
  const named = /^sep=([,;\t])\r?\n/i.exec(text);
  const body = named ? text.slice(named[0].length) : text;
  const delimiter = named?.[1] ?? delimiterOf(body);
  let parsed = yield* scaled(parsing(body, delimiter, '"'), 0, 0.5);
  const brokenQuoteRow = parsed.brokenQuoteRow;
  // An opened quotation mark that is never closed would swallow the rest of the file: then marks are plain signs.
  if (brokenQuoteRow !== null) parsed = yield* scaled(parsing(body, delimiter, '\u0000'), 0, 0.5);
  const rows = mapped(parsed.rows, (cells, index) => ({
    row: index + 1,
    cells: cells.map((cell) => unharmed(cell.trim())),
  }));
  return {
    delimiter,
    brokenQuoteRow,
    rows: (yield* scaled(rows, 0.5, 1)).filter(({ cells }) => cells.some((cell) => cell !== '')),
  };
}

const ROWS_A_SLICE = 2_000;

/** Some rows at a time: the parser says where it stopped, and goes on from there. */
function* parsing(
  text: string,
  delimiter: string,
  quoteChar: string,
): Work<{ rows: string[][]; brokenQuoteRow: number | null }> {
  const rows: string[][] = [];
  let newline: string | undefined;
  for (let from = 0; from < text.length;) {
    const { data, errors, meta } = Papa.parse<string[]>(text.slice(from), {
      delimiter,
      quoteChar,
      newline: newline as '\n' | undefined,
      // The fast mode would split all that is left of the text at every slice.
      fastMode: false,
      preview: ROWS_A_SLICE,
    });
    const broken = errors.find(({ code }) => code === 'MissingQuotes');
    if (broken) return { rows, brokenQuoteRow: rows.length + (broken.row ?? 0) + 1 };
    for (const row of data) rows.push(row);
    if (!meta.truncated || meta.cursor === 0) break;
    newline = meta.linebreak;
    from += meta.cursor;
    yield from / text.length;
  }
  return { rows, brokenQuoteRow: null };
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
