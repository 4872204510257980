/** The field of the answers that holds the rows the surgeon left out by hand: "12 15-18". */
export const ROWS_LEFT = 'rows-left';

/** Rows written as numbers and ranges; anything else in the text is passed over. */
export function rowsLeft(text: string): Set<number> {
  const rows = new Set<number>();
  for (const [, from = '', to = from] of text.matchAll(/\b(\d{1,7})(?:-(\d{1,7}))?\b/g)) {
    const last = Math.min(Number(to), Number(from) + MOST);
    for (let row = Number(from); row <= last; row += 1) rows.add(row);
  }
  return rows;
}

/** No sheet has more lines, so no honest range is longer. */
const MOST = 1_048_576;

/** The same rows as text, as short as they go. */
export function leftRowsText(rows: Iterable<number>): string {
  const sorted = [...new Set(rows)].sort((a, b) => a - b);
  const ranges: { from: number; to: number }[] = [];
  for (const row of sorted) {
    const last = ranges.at(-1);
    if (last && row === last.to + 1) last.to = row;
    else ranges.push({ from: row, to: row });
  }
  return ranges.map(({ from, to }) => (from === to ? `${from}` : `${from}-${to}`)).join(' ');
}
