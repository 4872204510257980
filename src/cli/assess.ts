import { aimedEyesOf } from '../lib/audit';
import { assess, assessmentText } from '../lib/assess';
import { oddInFile } from '../lib/rooms/cases/odd-times';
import type { AuditReading } from '../lib/intake';
import type { Problem } from '../lib/model';
import { atOnce } from '../lib/turns';
import { plainBlanks } from '../lib/format';
import { loadGuidance, loadProcedures } from '../lib/server/content/library';
import { compareProblem } from './compare-option';
import { readOptions, USAGE, type Options } from './options';
import { problemJson, problemLines, understood } from './print';
import { bytesOf, readFile, type Places } from './read-file';

/** What the command is run with. `userFolder`: where the person stood. */
export type Io = Places & { out: (text: string) => void; err: (text: string) => void };

/**
 * `assess FILE…`: prints in words what Choose shows, or JSON, one line a file in order. Exit code 0: at least one case
 * was assessed in every file; 2: nothing could be assessed in at least one, or the call itself is wrong. Refused rows
 * are counted on standard error and stand in `left_out`. Same files, seed and version: same bytes.
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
  for (const file of options.files) {
    const problems = await assessOne(file, options, io);
    if (problems === null) continue;
    code = 2;
    io.err(`${file}: nothing could be assessed.\n`);
    if (options.json) io.out(`${problemJson(file, problems)}\n`);
    else io.err(`${problemLines(problems).join('\n')}\n`);
  }
  return code;
}

/** @returns what is wrong where nothing could be assessed, else `null`. */
async function assessOne(file: string, options: Options, io: Io): Promise<Problem[] | null> {
  const bytes = await bytesOf(file, io);
  if ('problem' in bytes) return [bytes];
  const facts = options.facts === null ? null : await bytesOf(options.facts, io);
  if (facts && 'problem' in facts) return [facts];
  const procedures = loadProcedures();
  const reading = readFile({ bytes, fileName: file, procedures, facts: facts ? { bytes: facts } : undefined }, options);
  if ('problem' in reading) return [reading];
  const wrong = goalProblem(reading, options) ?? compareProblem(reading, options.compare);
  if (wrong) return [wrong];
  const refused = reading.problems.filter(({ weight }) => weight === 'refused');
  if (reading.layout === 'sheet')
    return [
      ...refused,
      whole(null, null, 'This is a list sheet: it holds no step time. Give it with --facts beside a file of times.'),
    ];
  const answer = assess({
    reading: { ...reading, problems: refused },
    procedures,
    guidance: loadGuidance(),
    seed: options.seed,
    ...(options.goal ? { goal: options.goal } : {}),
    ...(options.compare ? { compare: options.compare } : {}),
  });
  if (answer.kind === 'cannot') return refused.length > 0 ? refused : [whole(null, null, answer.because)];
  const odd = atOnce(oddInFile(reading, procedures));
  const asked = {
    ...reading,
    problems: [...reading.problems, ...odd],
    counted: { ...reading.counted, queried: reading.counted.queried + odd.length },
  };
  io.err(
    remarks(file, asked, options)
      .map((line) => `${file}: ${line}\n`)
      .join(''),
  );
  if (options.json) io.out(`${plainBlanks(JSON.stringify(answer.assessment))}\n`);
  else
    io.out(
      plainBlanks(
        `${[file, ...understood(reading), assessmentText(answer), ...problemLines(asked.problems, asked.counted.refused + asked.counted.queried), ''].join('\n')}\n`,
      ),
    );
  return null;
}

/** What was taken for granted, left out and asked about: for standard error, so that standard output stays JSON alone. */
function remarks(
  file: string,
  { cases, questions, problems, counted, mapping }: AuditReading,
  options: Options,
): string[] {
  const guesses = questions
    .filter(({ answered }) => !answered)
    .map(({ id, question, options: all, answer }) => {
      const label = all.find(({ value }) => value === answer)?.label ?? answer;
      return `${question} Taken as: ${label}. To answer otherwise: --answer "${id}=…" with one of ${all.map(({ value }) => value).join(', ')}.`;
    });
  const lost = options.goal && !cases.some(({ code }) => code === options.goal?.from);
  const { refused, queried } = counted;
  const listed = problems.filter(({ weight }) => weight === 'refused').length;
  const named = listed < refused ? `the first ${listed} are named` : 'each is named';
  const loose = options.json ? mapping.filter(({ how }) => how === 'loose' || how === 'position') : [];
  return [
    ...loose.map(({ from, to }) => `"${from}" understood as ${to}.`),
    ...guesses,
    ...(lost ? [`no case has the code "${options.goal?.from}", so there is no result from it on.`] : []),
    ...(refused > 0
      ? [`${refused} rows or values were left out; ${named}${options.json ? ' in left_out' : ' below'}.`]
      : []),
    ...(queried > 0 && options.json
      ? problems
          .filter(({ weight }) => weight === 'queried')
          .map(({ row, why }) => `${row === null ? '' : `row ${row}: `}${why}`)
      : []),
  ];
}

function goalProblem({ procedureId, cases }: AuditReading, { goal }: Options): Problem | null {
  if (!goal || cases.length === 0) return null;
  const procedure = loadProcedures().find(({ id }) => id === procedureId);
  if (goal.step !== 'suggested' && !procedure?.steps.some(({ id }) => id === goal.step))
    return whole(
      '--goal',
      goal.step,
      `There is no such step. Steps: ${procedure?.steps.map(({ id }) => id).join(', ') ?? 'none'}, or "suggested".`,
    );
  if (goal.eyes && procedure && !aimedEyesOf(procedure, goal.eyes.fact, goal.eyes.level)) {
    const known = procedure.facts.flatMap(({ id, kind, levels }) =>
      kind === 'number'
        ? []
        : [`${id}=${kind === 'yes-no' ? 'yes|no' : (levels ?? []).map((each) => each.id).join('|')}`],
    );
    return whole(
      '--eyes',
      `${goal.eyes.fact}=${goal.eyes.level}`,
      `There are no such eyes. Known: ${known.join(', ')}.`,
    );
  }
  return null;
}

const whole = (column: string | null, value: string | null, why: string): Problem => ({
  row: null,
  column,
  value,
  why,
  weight: 'refused',
});
