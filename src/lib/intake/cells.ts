import Papa from 'papaparse';
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
export function cellsOf(text: string): Sheet {
  // A first line "sep=;" is for the spreadsheet, which does not show it.
  const named = /^sep=([,;\t])\r?\n/i.exec(text);
  const body = named ? text.slice(named[0].length) : text;
  const delimiter = named?.[1] ?? delimiterOf(body);
  let parsed = Papa.parse<string[]>(body, { delimiter, skipEmptyLines: false, dynamicTyping: false });
  const broken = parsed.errors.find(({ code }) => code === 'MissingQuotes');
  // An opened quotation mark that is never closed would swallow the rest of the file: then marks are plain signs.
  if (broken)
    parsed = Papa.parse<string[]>(body, {
      delimiter,
      skipEmptyLines: false,
      dynamicTyping: false,
      quoteChar: '\u0000',
    });
  return {
    delimiter,
    brokenQuoteRow: broken?.row === undefined ? null : broken.row + 1,
    rows: parsed.data
      .map((cells, index) => ({ row: index + 1, cells: cells.map((cell) => unharmed(cell.trim())) }))
      .filter(({ cells }) => cells.some((cell) => cell !== '')),
  };
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
