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

/** Tabs and semicolons seldom stand inside a cell, commas often do (decimals, titles): so they are looked for in that order. */
function delimiterOf(text: string): string {
  const lines = text
    .slice(0, 20_000)
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, 12);
  const bare = lines.map((line) => line.replace(/"[^"]*"/g, ''));
  const inMost = (sign: string) => bare.filter((line) => line.includes(sign)).length > bare.length / 2;
  return ['\t', ';'].find(inMost) ?? ',';
}
