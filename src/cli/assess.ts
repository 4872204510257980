import { readFile } from 'node:fs/promises';
import { basename, isAbsolute, resolve } from 'node:path';
import { existsSync } from 'node:fs';
import { assess, assessmentText, type Assessed } from '../lib/assessment';
import { joinFacts, readAudit, type AuditReading } from '../lib/intake';
import type { Problem, Procedure } from '../lib/model';
import { loadGuidance, loadProcedures } from '../lib/server/content/library';
import { readOptions, USAGE, type Options } from './options';

/** What the command is run with. `userFolder`: where the person stood. */
export type Io = {
  userFolder: string;
  projectFolder: string;
  out: (text: string) => void;
  err: (text: string) => void;
};

/**
 * `assess FILE…`: prints in words what Choose shows, or JSON. Exit code 0: at least one case was assessed in every
 * file; 2: nothing could be assessed in at least one. Refused rows are counted on standard error and stand in `left_out`.
 */
export async function run(args: readonly string[], io: Io): Promise<number> {
  let options: Options | 'help';
  try {
    options = readOptions(args);
  } catch (why) {
    io.err(`${why instanceof Error ? why.message : String(why)}\n\n${USAGE}\n`);
    return 2;
  }
  if (options === 'help') {
    io.out(`${USAGE}\n`);
    return 0;
  }
  let code = 0;
  for (const file of options.files) if (!(await one(file, options, io))) code = 2;
  return code;
}

const find = (file: string, io: Io): string => {
  const fromUser = isAbsolute(file) ? file : resolve(io.userFolder, file);
  return existsSync(fromUser) || isAbsolute(file) ? fromUser : resolve(io.projectFolder, file);
};

async function one(file: string, options: Options, io: Io): Promise<boolean> {
  const procedures = loadProcedures();
  let bytes: Uint8Array;
  try {
    bytes = await readFile(find(file, io));
  } catch {
    return refuse(file, [problem(null, null, null, 'There is no such file, or it cannot be read.')], options, io);
  }
  const reading = read(bytes, file, procedures, options, io);
  const procedure = procedures.find(({ id }) => id === reading.procedureId);
  const joined = options.facts && procedure ? await withFacts(reading, options.facts, procedure, io) : reading;
  for (const asked of joined.questions)
    if (!asked.answered)
      io.err(
        `${file}: ${asked.question} Taken as: ${asked.options.find(({ value }) => value === asked.answer)?.label ?? asked.answer}.\n`,
      );
  if (
    options.goal &&
    options.goal.step !== 'suggested' &&
    !procedure?.steps.some(({ id }) => id === options.goal?.step)
  )
    return refuse(
      file,
      [
        problem(
          null,
          null,
          options.goal.step,
          `There is no such step: ${procedure?.steps.map(({ id }) => id).join(', ') ?? ''}.`,
        ),
      ],
      options,
      io,
    );

  const answer: Assessed = assess({
    reading: joined,
    procedures,
    guidance: loadGuidance(),
    seed: options.seed,
    ...(options.goal ? { goal: options.goal } : {}),
  });
  if (answer.kind === 'cannot')
    return refuse(
      file,
      joined.problems.length > 0 ? joined.problems : [problem(null, null, null, answer.because)],
      options,
      io,
    );
  const refused = joined.problems.filter(({ weight }) => weight === 'refused').length;
  if (refused > 0)
    io.err(
      `${file}: ${refused} rows or values were left out; each is named${options.json ? ' in left_out' : ' below'}.\n`,
    );
  if (options.json) io.out(`${JSON.stringify(answer.assessment)}\n`);
  else
    io.out(
      [`${basename(file)}`, ...understood(joined), assessmentText(answer), ...problemLines(joined.problems), ''].join(
        '\n',
      ) + '\n',
    );
  return true;
}

/** Reads twice where names must be answered: the first reading tells what is asked. */
function read(bytes: Uint8Array, file: string, procedures: Procedure[], options: Options, io: Io): AuditReading {
  const input = { bytes, fileName: basename(file), procedures };
  const choices: Record<string, string> = options.procedure ? { procedure: options.procedure } : {};
  const first = readAudit({ ...input, choices });
  const names = first.questions.filter(({ id }) => id.startsWith('surgeon:'));
  if (names.length === 0) return first;
  for (const { id, guess } of names) {
    const name = id.slice('surgeon:'.length);
    choices[id] = options.references.includes(name)
      ? 'reference'
      : options.me !== null
        ? name === options.me
          ? 'me'
          : 'leave'
        : guess;
  }
  const known = new Set(names.map(({ id }) => id.slice('surgeon:'.length)));
  for (const name of [options.me, ...options.references])
    if (name !== null && !known.has(name))
      io.err(`${file}: no surgeon is called "${name}"; there are ${[...known].join(', ')}.\n`);
  // Given on the command line, a reference set is the caller's word that these surgeons agreed.
  if (options.references.length > 0) choices['agreed'] = 'yes';
  return readAudit({ ...input, choices });
}

async function withFacts(reading: AuditReading, file: string, procedure: Procedure, io: Io): Promise<AuditReading> {
  try {
    const joined = joinFacts(reading.cases, await readFile(find(file, io), 'utf8'), procedure);
    return { ...reading, cases: joined.cases, problems: [...reading.problems, ...joined.problems] };
  } catch {
    io.err(`${file}: there is no such file, or it cannot be read; no facts were joined.\n`);
    return reading;
  }
}

function understood(reading: AuditReading): string[] {
  const loose = reading.mapping.filter(({ how }) => how !== 'exact');
  if (loose.length === 0) return [];
  return ['Understood as:', ...loose.map(({ from, to }) => `  ${from} → ${to}`)];
}

const problem = (row: number | null, column: string | null, value: string | null, why: string): Problem => ({
  row,
  column,
  value,
  why,
  weight: 'refused',
});

const SHOWN = 20;

function problemLines(problems: readonly Problem[]): string[] {
  if (problems.length === 0) return [];
  const line = ({ row, column, value, why }: Problem) =>
    `  ${[row === null ? '' : `row ${row}`, column ?? '', value === null ? '' : `"${value}"`].filter(Boolean).join(', ')}: ${why}`.replace(
      '  : ',
      '  ',
    );
  return [
    '',
    'Left out or asked about:',
    ...problems.slice(0, SHOWN).map(line),
    ...(problems.length > SHOWN ? [`  and ${problems.length - SHOWN} more`] : []),
  ];
}

function refuse(file: string, problems: readonly Problem[], options: Options, io: Io): false {
  io.err(`${file}: nothing could be assessed.\n`);
  const listed = problems.map(({ row, column, value, why }) => ({ row, column, value, why }));
  if (options.json) io.out(`${JSON.stringify({ format: 'next-twenty/problems/1', file, problems: listed })}\n`);
  else io.err(`${problemLines(problems).join('\n')}\n`);
  return false;
}
