import { assess, assessmentText, lineSchema } from '../lib/assess';
import { plainBlanks } from '../lib/format';
import type { Procedure } from '../lib/model';
import { oddInFile } from '../lib/rooms/cases/odd-times';
import { loadGuidance, loadProcedures } from '../lib/server/content/library';
import { atOnce } from '../lib/turns';
import { readOptions, type Options } from './options';
import { bytesOf, partsOf, type Part, type Places } from './parts';
import { problemJson, problemLines, understood } from './print';
import { whole, type FileProblem } from './problem';
import { readAll, readOne, type Reading } from './read-file';
import { remarks } from './remarks';
import { USAGE } from './usage';
import { answerProblem, callProblem, procedureProblem } from './wrong-call';

/** What the command is run with. `userFolder`: where the person stood. */
export type Io = Places & { out: (text: string) => void; err: (text: string) => void };

/** What one line of the answer is about: a file, or with --together all of them. */
type Unit = { file: string; read: Reading | { problem: FileProblem } };

/**
 * `assess FILE…`: prints in words what Choose shows, or JSON, one line a file in order. Exit code 0: at least one case
 * was assessed in every file; 2: nothing could be assessed in at least one, or the call itself is wrong. Refused rows
 * are counted on standard error and stand in `left_out`. Same files, seed and version: same bytes.
 */
export async function run(args: readonly string[], io: Io): Promise<number> {
  let options: Options | 'help' | 'schema';
  try {
    options = readOptions(args);
  } catch (why) {
    io.err(`${why instanceof Error ? why.message : String(why)}\n\n${USAGE}\n`);
    return 2;
  }
  if (options === 'help' || options === 'schema') {
    io.out(`${options === 'help' ? USAGE : JSON.stringify(lineSchema(), null, 2)}\n`);
    return 0;
  }
  const procedures = loadProcedures();
  const units = await unitsOf(options, procedures, io);
  const readings = units.flatMap(({ read }) => ('problem' in read ? [] : [read]));
  // Where a file could not be read, it may be the one that asks.
  const wrong = readings.length < units.length ? null : answerProblem(readings, options);
  let code = 0;
  for (const { file, read } of units) {
    const problems =
      'problem' in read ? [read.problem] : wrong ? [wrong] : assessOne(file, read, procedures, options, io);
    if (problems === null) continue;
    code = 2;
    io.err(`${file}: nothing could be assessed.\n`);
    if (options.json) io.out(`${problemJson(file, problems)}\n`);
    else io.err(`${problemLines(problems).join('\n')}\n`);
  }
  return code;
}

async function unitsOf(options: Options, procedures: readonly Procedure[], io: Io): Promise<Unit[]> {
  const { files, sheets } = options;
  const everyFile = files.join(' + ');
  const wrong = procedureProblem(options, procedures);
  if (wrong) return (options.together ? [everyFile] : files).map((file) => ({ file, read: { problem: wrong } }));
  const facts = options.facts === null ? null : await bytesOf(options.facts, io);
  const noFacts = options.facts !== null && facts === null ? whole('--facts', options.facts, NO_FILE) : null;
  const units: Unit[] = [];
  const together: Part[] = [];
  for (const file of files) {
    const found = noFacts ? { problem: noFacts } : await partsOf(file, sheets, io);
    if ('problem' in found) {
      if (options.together) return [{ file: everyFile, read: { problem: { ...found.problem, file } } }];
      units.push({ file, read: found });
    } else if (options.together) together.push(...found.parts);
    else units.push({ file, read: readOne(found.parts, facts, procedures, options) });
  }
  return options.together ? [{ file: everyFile, read: readAll(together, procedures, options) }] : units;
}

const NO_FILE = 'There is no such file, or it cannot be read. Check its name and folder.';

/** @returns what is wrong where nothing could be assessed, else `null`. */
function assessOne(
  file: string,
  reading: Reading,
  procedures: readonly Procedure[],
  options: Options,
  io: Io,
): FileProblem[] | null {
  const refused = reading.problems.filter(({ weight }) => weight === 'refused');
  if (reading.parts.every((part) => part.reading.layout === 'sheet'))
    return [
      ...refused,
      whole(null, null, 'This is a list sheet: it holds no step time. Give it with --facts beside a file of times.'),
    ];
  const wrong = callProblem(reading, procedures, options);
  if (wrong) return [wrong];
  const answer = assess({
    reading: { ...reading, problems: refused },
    file,
    procedures,
    guidance: loadGuidance(),
    seed: options.seed,
    ...(options.goal ? { goal: options.goal } : {}),
    ...(options.compare ? { compare: options.compare } : {}),
  });
  if (answer.kind === 'cannot') return refused.length > 0 ? refused : [whole(null, null, answer.because)];
  const odd = atOnce(oddInFile(reading, procedures));
  const asked: Reading = {
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
        `${[
          file,
          ...reading.parts.flatMap((part) => [...(part.name === file ? [] : [part.name]), ...understood(part.reading)]),
          assessmentText(answer),
          ...problemLines(asked.problems, asked.counted.refused + asked.counted.queried),
          '',
        ].join('\n')}\n`,
      ),
    );
  return null;
}
