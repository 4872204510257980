import { problemLines as grouped } from '../lib/rooms/bring-in/problem-lines';
import { briefly, type AuditReading } from '../lib/intake';
import type { Problems } from '../lib/assess';
import type { FileProblem } from './problem';

/** A terminal shows the first of many; the JSON names every one. */
const SHOWN = 20;

/** Headings and labels not written as the procedure writes them: for the reader to check. */
export function understood({ mapping, rowsIn, rowsTaken, rowsNamed }: AuditReading): string[] {
  const loose = mapping.filter(({ how, value }) => how !== 'exact' || value === 'leave');
  const unused = loose.slice(SHOWN).filter(({ value }) => value === 'leave').length;
  return [
    `${rowsIn} rows: ${rowsTaken} taken, ${rowsNamed} named and left out.`,
    ...(loose.length === 0
      ? []
      : ['Understood as:', ...loose.slice(0, SHOWN).map(({ from, to }) => `  ${briefly(from)} → ${to}`)]),
    ...(loose.length > SHOWN ? [`  and ${loose.length - SHOWN} more, of which ${unused} are not used`] : []),
    '',
  ];
}

/** Rows with the same trouble share a line, so that a hundred of one kind do not hide one of another. */
export function problemLines(problems: readonly FileProblem[], total = problems.length): string[] {
  if (problems.length === 0) return [];
  const named = problems.map(({ file, ...one }) => (file ? { ...one, why: `${file}: ${one.why}` } : one));
  const { first, rest, more } = grouped(named, total);
  const left = rest.length + more;
  return [
    '',
    'Left out or asked about:',
    ...first.map((line) => `  ${line}`),
    ...(left > 0 ? [`  and ${left} more`] : []),
  ];
}

/** The line of a file in which nothing could be assessed. */
export function problemJson(file: string, problems: readonly FileProblem[]): string {
  const line: Problems = {
    format: 'next-twenty/problems/1',
    file,
    problems: problems.map(({ file: in_ = file, row, column, value, why }) => ({ file: in_, row, column, value, why })),
  };
  return JSON.stringify(line);
}
