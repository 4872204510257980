import Papa from 'papaparse';
import { itemAt } from '../../src/lib/item-at';
import { readAudit } from '../../src/lib/intake';
import type { Procedure } from '../../src/lib/model';
import { loadProcedures } from '../../src/lib/server/content/library';
import { randomStream } from '../../src/lib/statistics';

const USAGE = 'npm run bench -- intake [--stretches 100000] [--runs 7] [--json]';

type Io = { out: (text: string) => void; err: (text: string) => void };

/** Most that reading a file may take, in times of what the CSV library alone takes to turn it into cells. */
export const RATIO_BAR = 4;

/** Columns that the page names as enough, and those that a kept sheet as a rule has. */
const FILES = {
  'four columns': 'case_id,step,start_s,end_s',
  'thirteen columns': 'case_id,step,start_s,end_s,list,date,kind,nucleus,pupil,event,hands,surgeon,note',
} as const;
type File = keyof typeof FILES;

type Row = { file: File; letters: number; bareMs: number; readMs: number; ratio: number; heldMegabytes: number };

/**
 * Times how a file of stretches comes in, as the page reads it (rows and all), against the library's bare parse of the same
 * text in the same run, in turn, so that the ratio holds on any machine.
 *
 * @returns 0 where the bar is kept for every file, 1 where it is missed, 2 for a wrong call
 */
export function run(args: readonly string[], io: Io = standard): number {
  const option = (name: string, otherwise: number) => {
    const at = args.indexOf(`--${name}`);
    return at === -1 ? otherwise : Number(args[at + 1]);
  };
  const [stretches, runs] = [option('stretches', 100_000), option('runs', 7)];
  if (![stretches, runs].every((each) => Number.isInteger(each) && each > 0)) {
    io.err(`${USAGE}\n`);
    return 2;
  }
  const procedure = itemAt(loadProcedures(), 0);
  const rows = (Object.keys(FILES) as File[]).map((file) => measured(file, stretches, runs, procedure));
  const peakMegabytes = Math.round(process.resourceUsage().maxRSS / 1024);
  const kept = rows.every(({ ratio }) => ratio <= RATIO_BAR);
  io.out(args.includes('--json') ? `${JSON.stringify({ stretches, runs, rows, peakMegabytes, kept })}\n` : inWords());
  return kept ? 0 : 1;

  function inWords(): string {
    const lines = rows.map(
      ({ file, letters, bareMs, readMs, ratio, heldMegabytes }) =>
        `${stretches} stretches, ${file}, ${(letters / 1e6).toFixed(1)} MB: parsed in ${bareMs.toFixed(0)} ms, read in ${readMs.toFixed(0)} ms, ${ratio.toFixed(1)} times as long; what was read takes ${heldMegabytes.toFixed(0)} MB.\n`,
    );
    return `${lines.join('')}Most memory of the whole run: ${peakMegabytes} MB. At most ${RATIO_BAR} times: ${kept ? 'kept' : 'NOT kept'}.\n`;
  }
}

function measured(file: File, stretches: number, runs: number, procedure: Procedure): Row {
  const text = textOf(file, stretches, procedure);
  const input = { text, fileName: 'large.csv', procedures: [procedure], withRows: true };
  const before = process.memoryUsage().heapUsed;
  const reading = readAudit(input);
  const heldMegabytes = Math.max(0, process.memoryUsage().heapUsed - before) / 1e6;
  if (reading.rowsTaken !== stretches) throw new Error(`${reading.rowsTaken} of ${stretches} rows were taken`);
  let [bareMs, readMs] = [Infinity, Infinity];
  for (let run = 0; run < runs; run += 1) {
    bareMs = Math.min(
      bareMs,
      lasted(() => Papa.parse(text)),
    );
    readMs = Math.min(
      readMs,
      lasted(() => readAudit(input)),
    );
  }
  return { file, letters: text.length, bareMs, readMs, ratio: readMs / bareMs, heldMegabytes };
}

/** Milliseconds of processor time: what the machine does beside is not ours. */
function lasted(work: () => unknown): number {
  const from = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
}

/** Operations of eleven steps, one after another, as a surgeon with a player notes them. */
function textOf(file: File, stretches: number, { steps }: Procedure): string {
  const own = steps.filter(({ mergeOf, retired }) => !mergeOf && !retired).slice(0, 11);
  const chance = randomStream(1, 5);
  const of = (many: readonly string[]) => itemAt(many, Math.floor(many.length * chance.uniform()));
  const rows: string[] = [FILES[file]];
  let [clock, facts] = [0, ''];
  for (let row = 0; row < stretches; row += 1) {
    const [operation, place] = [Math.floor(row / own.length), row % own.length];
    if (place === 0) {
      clock = 20 * chance.uniform();
      facts = `step,${of(['soft', 'medium', 'hard', 'white'])},${of(['medium', 'small'])},none,mine,me,`;
    }
    const from = clock;
    clock += 15 + 80 * chance.uniform();
    const times = `F${operation + 1},${itemAt(own, place).label},${from.toFixed(1)},${clock.toFixed(1)}`;
    const list = Math.floor(operation / 6);
    const day = new Date(Date.UTC(2005, 0, 3 + 3 * list)).toISOString().slice(0, 10);
    rows.push(file === 'four columns' ? times : `${times},L${list + 1},${day},${facts}`);
  }
  return rows.join('\n');
}

const standard: Io = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};
