import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadProcedures } from '../../src/lib/server/content/library';
import { writingStretches } from '../../src/lib/intake';
import { atOnce } from '../../src/lib/turns';
import { recordOf } from './simulated-record';
import { itemAt } from '../../src/lib/item-at';

const FILES = 300;
const CASES = 40;
const STEPS = 8;

/** Loaded before the tool: says at the end what processor time its process took. */
const REPORTS = `data:text/javascript,${encodeURIComponent(
  "process.on('exit', () => { const { user, system } = process.cpuUsage(); process.stderr.write('\\ncpu ' + (user + system) / 1000); });",
)}`;

/**
 * How many times the processor time of `assess` with one file a call with 300 files takes, each call in a process of
 * its own, start-up included, as whoever runs it over a folder has it.
 */
export function assessManyRatio(): { oneMs: number; manyMs: number; ratio: number } {
  const folder = mkdtempSync(join(tmpdir(), 'assess-many-'));
  try {
    const files = Array.from({ length: FILES }, (_, seed) => {
      const file = join(folder, `${seed + 1}.csv`);
      writeFileSync(file, fileOf(seed + 1));
      return file;
    });
    const one = [itemAt(files, 0)];
    assessed(one); // builds the tool where it is not built yet
    const oneMs = Math.min(assessed(one), assessed(one), assessed(one));
    const manyMs = assessed(files);
    return { oneMs, manyMs, ratio: manyMs / oneMs };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function fileOf(seed: number): string {
  const phaco = itemAt(loadProcedures(), 0);
  const cases = recordOf({ cases: CASES, usual: Array.from({ length: STEPS }, (_, at) => 20 + 15 * at) }, seed);
  const named = cases.map((one) => ({
    ...one,
    procedureId: phaco.id,
    stretches: one.stretches.map((each, at) => ({ ...each, stepId: itemAt(phaco.steps, at).id })),
  }));
  return atOnce(writingStretches(named, { procedure: phaco, lists: [] }));
}

function assessed(files: readonly string[]): number {
  const args = [
    '--import',
    REPORTS,
    join('src', 'run', 'tool.js'),
    'assess',
    '--json',
    '--procedure',
    'phaco',
    ...files,
  ];
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', maxBuffer: 2 ** 30 });
  const said = /cpu ([\d.]+)$/.exec(stderr);
  if (status !== 0 || !said) throw new Error(`assess could not be timed: ${stderr.slice(0, 2000)}`);
  return Number(said[1]);
}
