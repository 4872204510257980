import type { Problem } from '../../model';
import { capital } from '../../format';

export type ProblemList = {
  /** Problems, not lines: rows with the same problem share a line. */
  total: number;
  first: readonly string[];
  rest: readonly string[];
  /** Problems on lines that are not listed: a page of fifty thousand lines helps nobody. */
  more: number;
};

const FIRST = 20;
const LISTED = 300;
const RANGES = 12;
const VALUE = 40;

type Line = { problem: Problem; rows: number[] };

/**
 * Problems as lines, twenty in view; rows with the same problem and the same value share one line.
 *
 * @param total how many there are, where only the first of very many are given
 */
export function problemLines(problems: readonly Problem[], total = problems.length): ProblemList {
  const lines = new Map<string, Line>();
  for (const problem of problems) {
    const key = JSON.stringify([problem.column, problem.value, problem.why]);
    const line = lines.get(key) ?? { problem, rows: [] };
    if (problem.row !== null) line.rows.push(problem.row);
    lines.set(key, line);
  }
  const all = [...lines.values()];
  const words = all.slice(0, LISTED).map(lineWords);
  return {
    total,
    first: words.slice(0, FIRST),
    rest: words.slice(FIRST),
    more: all.slice(LISTED).reduce((sum, { rows }) => sum + Math.max(1, rows.length), total - problems.length),
  };
}

function lineWords({ problem: { column, value, why }, rows }: Line): string {
  const where = [...(rows.length === 0 ? [] : [rowWords(rows)]), ...(column === null ? [] : [column])].join(', ');
  const what = value === null || value === '' ? '' : ` "${value.length > VALUE ? `${value.slice(0, VALUE)}…` : value}"`;
  return where === '' && what === '' ? why : `${capital(`${where}${what}`.trim())}: ${why}`;
}

/** "row 12", "rows 2 to 120 and 185". */
export function rowWords(rows: readonly number[]): string {
  const sorted = [...new Set(rows)].sort((a, b) => a - b);
  const ranges: { from: number; to: number }[] = [];
  for (const row of sorted) {
    const last = ranges.at(-1);
    if (last && row === last.to + 1) last.to = row;
    else ranges.push({ from: row, to: row });
  }
  const told = ranges.slice(0, RANGES).map(({ from, to }) => (from === to ? String(from) : `${from} to ${to}`));
  const left = ranges.slice(RANGES).reduce((sum, { from, to }) => sum + to - from + 1, 0);
  const parts = left > 0 ? [...told, `${left} more`] : told;
  const list = parts.length > 1 ? `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}` : parts.join('');
  return `${sorted.length === 1 ? 'row' : 'rows'} ${list}`;
}
