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

/** From so many values with the same trouble on, one line says it of all of them, with the first as the example. */
const ALIKE = 3;

/** `values`: how many different values the line speaks of. */
type Line = { problem: Problem; rows: number[]; problems: number; values: number };

/**
 * Problems as lines, twenty in view; rows with the same problem and the same value share one line, and so do several
 * values of a column with the same trouble.
 *
 * @param total how many there are, where only the first of very many are given
 */
export function problemLines(problems: readonly Problem[], total = problems.length): ProblemList {
  const lines = new Map<string, Line>();
  for (const problem of problems) {
    const key = JSON.stringify([problem.column, problem.value, problem.why]);
    const line = lines.get(key) ?? { problem, rows: [], problems: 0, values: 1 };
    if (problem.row !== null) line.rows.push(problem.row);
    line.problems += 1;
    lines.set(key, line);
  }
  const all = alikeTogether([...lines.values()]);
  const words = all.slice(0, LISTED).map(lineWords);
  return {
    total,
    first: words.slice(0, FIRST),
    rest: words.slice(FIRST),
    more: all.slice(LISTED).reduce((sum, line) => sum + line.problems, total - problems.length),
  };
}

/** Lines of one column, or of none, that say the same but for their values and figures, as one, where the first stood. */
function alikeTogether(lines: readonly Line[]): Line[] {
  const alike = new Map<string, Line[]>();
  for (const line of lines) {
    const { column, value, why } = line.problem;
    const same = (value ? why.replaceAll(value, '"') : why).replaceAll(/\d+(?:[.,:]\d+)*/g, '#');
    const key = value === null ? JSON.stringify(line.problem) : JSON.stringify([column, same]);
    alike.set(key, [...(alike.get(key) ?? []), line]);
  }
  return [...alike.values()].flatMap((group) => {
    const [first] = group;
    if (!first || group.length < ALIKE) return group;
    const sum = (of: (line: Line) => number) => group.reduce((all, line) => all + of(line), 0);
    return [
      {
        problem: first.problem,
        rows: group.flatMap(({ rows }) => rows),
        problems: sum(({ problems }) => problems),
        values: group.length,
      },
    ];
  });
}

function lineWords({ problem: { column, value, why }, rows, values }: Line): string {
  const where = [...(rows.length === 0 ? [] : [rowWords(rows)]), ...(column === null ? [] : [column])].join(', ');
  const what = value === null || value === '' ? '' : ` "${value.length > VALUE ? `${value.slice(0, VALUE)}…` : value}"`;
  if (values > 1) {
    const many = column === null ? `${values} of this kind` : `${values} different values`;
    return `${capital(where)}: ${many}, the first${what}. ${capital(why)}`;
  }
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
