import { counted } from '../lib/format';
import type { Options } from './options';
import type { FileProblem } from './problem';
import type { Reading } from './read-file';

/** What was taken for granted, left out and asked about: for standard error, so that standard output stays JSON alone. */
export function remarks(file: string, reading: Reading, options: Options): string[] {
  const { questions, problems, counted: counts, parts, others } = reading;
  const guesses = questions
    .filter(({ answered }) => !answered)
    .map(({ id, question, options: all, answer }) => {
      const label = all.find(({ value }) => value === answer)?.label ?? answer;
      return `${question} Taken as: ${label}. To answer otherwise: --answer "${id}=…" with one of ${all.map(({ value }) => value).join(', ')}.`;
    });
  const mapping = parts.flatMap(({ reading: { mapping: all } }) => all);
  const loose = options.json ? mapping.filter(({ how }) => how === 'loose' || how === 'position') : [];
  return [
    ...sheets(file, reading),
    ...(options.together && parts.length > 1
      ? [
          `one record of ${counted(parts.length, 'part')}: ${parts.map(({ name, reading: { rowsTaken } }) => `${name} (${counted(rowsTaken, 'row')} taken)`).join(', ')}.`,
        ]
      : []),
    ...(others.length > 0
      ? [
          `other sheets, not read: ${others.map(({ name, rows }) => `${name} (${counted(rows, 'row')})`).join(', ')}. Name one with --sheet; several are one record with --together.`,
        ]
      : []),
    ...loose.map(({ from, to }) => `"${from}" understood as ${to}.`),
    ...guesses,
    ...(counts.refused > 0
      ? [`${leftOutWords(counts.refused, problems)}${options.json ? ' in left_out' : ' below'}.`]
      : []),
    ...(counts.queried > 0 && options.json
      ? problems
          .filter(({ weight }) => weight === 'queried')
          .map(({ row, why, file: in_ }) => `${in_ ? `${in_}: ` : ''}${row === null ? '' : `row ${row}: `}${why}`)
      : []),
  ];
}

const sheets = (file: string, { parts: [only, ...more] }: Reading): string[] =>
  only && more.length === 0 && only.name !== file ? [`read from ${only.name}.`] : [];

function leftOutWords(refused: number, problems: readonly FileProblem[]): string {
  const listed = problems.filter(({ weight }) => weight === 'refused').length;
  const named = listed < refused ? `the first ${listed} are named` : 'each is named';
  return `${refused} rows or values were left out; ${named}`;
}
