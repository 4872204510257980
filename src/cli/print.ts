import { briefly, type AuditReading } from '../lib/intake';
import type { Problem } from '../lib/model';

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

export function problemLines(problems: readonly Problem[]): string[] {
  if (problems.length === 0) return [];
  const line = ({ row, column, value, why }: Problem) => {
    const where = [row === null ? '' : `row ${row}`, column ?? '', value === null ? '' : `"${briefly(value)}"`].filter(
      Boolean,
    );
    return `  ${where.length > 0 ? `${where.join(', ')}: ` : ''}${why}`;
  };
  const more = problems.length - SHOWN;
  return [
    '',
    'Left out or asked about:',
    ...problems.slice(0, SHOWN).map(line),
    ...(more > 0 ? [`  and ${more} more`] : []),
  ];
}

/** The line of a file in which nothing could be assessed. */
export function problemJson(file: string, problems: readonly Problem[]): string {
  const listed = problems.map(({ row, column, value, why }) => ({ row, column, value, why }));
  return JSON.stringify({ format: 'next-twenty/problems/1', file, problems: listed });
}
