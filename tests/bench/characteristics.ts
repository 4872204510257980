import { oneRun } from './characteristics-judge';
import { lookBack, lookBackRows } from './characteristics-look-back';
import { countsOf, reportOf, tableOf, type Report } from './characteristics-report';
import { rows } from './characteristics-rows';

const USAGE = 'npm run bench -- characteristics [--runs 1000] [--seed 1] [--world NAME] [--json]';

/** A world, one run of it, and what its runs come to. */
type Work = {
  name: string;
  reported: (eachRun: <S>(one: (run: number) => S | null) => Promise<S[]>, seed: number) => Promise<Report>;
};

const works: readonly Work[] = [
  ...rows.map((row): Work => ({
    name: row.world.name,
    reported: async (eachRun, seed) => reportOf(row, await eachRun((run) => oneRun(row.world, seed, run))),
  })),
  ...lookBackRows.map((row): Work => ({
    name: row.world.name,
    reported: async (eachRun, seed) => ({
      counts: countsOf(row, await eachRun((run) => lookBack(row, seed, run))),
      beside: null,
    }),
  })),
];

type Io = { out: (text: string) => void; err: (text: string) => void };

/**
 * How often every result appears in worlds whose truth is written down, through the functions the screens use, beside
 * what people do today in the same runs. `--world` takes the worlds whose name begins so.
 * @returns 0 when every bar is kept, its Monte-Carlo interval considered; 1 when one is missed; 2 for a wrong call
 */
export async function run(args: readonly string[], io: Io = standard): Promise<number> {
  const asked = options(args);
  if (asked === null) {
    io.err(`${USAGE}\n`);
    return 2;
  }
  const chosen = works.filter(({ name }) => name.startsWith(asked.world));
  if (chosen.length === 0) {
    io.err(`No world's name begins with "${asked.world}". There are: ${works.map(({ name }) => name).join(', ')}\n`);
    return 2;
  }
  const reports: Report[] = [];
  for (const [at, work] of chosen.entries()) {
    io.err(`${at + 1} of ${chosen.length}: ${work.name} `);
    reports.push(await work.reported((one) => counted(one, asked.runs, io), asked.seed));
    io.err('\n');
  }
  const missed = reports.flatMap((report) => report.counts).filter((one) => one.missed);
  if (asked.json) io.out(`${JSON.stringify({ runs: asked.runs, seed: asked.seed, reports, missed: missed.length })}\n`);
  else {
    io.out(`${tableOf(reports)}\n\n`);
    io.out(
      `${asked.runs} runs a world, seed ${asked.seed}. ${missed.length === 0 ? 'Every bar is kept.' : `${missed.length} missed:`}\n`,
    );
    for (const one of missed) io.out(`  ${one.world}, ${one.count}: ${(100 * one.share).toFixed(1)} %\n`);
  }
  return missed.length === 0 ? 0 : 1;
}

async function counted<S>(one: (run: number) => S | null, runs: number, io: Io): Promise<S[]> {
  const said: S[] = [];
  for (let number = 0; number < runs; number += 1) {
    const each = one(number);
    if (each !== null) said.push(each);
    if ((number + 1) % Math.ceil(runs / 10) === 0) {
      io.err('.');
      await new Promise((resolve) => setTimeout(resolve, 0)); // let the progress out
    }
  }
  return said;
}

function options(args: readonly string[]): { runs: number; seed: number; world: string; json: boolean } | null {
  const asked = { runs: 1000, seed: 1, world: '', json: false };
  for (let at = 0; at < args.length; at += 1) {
    const value = args[at + 1] ?? '';
    if (args[at] === '--json') asked.json = true;
    else if (args[at] === '--world' && value) asked.world = args[++at]!;
    else if ((args[at] === '--runs' || args[at] === '--seed') && /^[1-9][0-9]*$/.test(value))
      asked[args[at] === '--runs' ? 'runs' : 'seed'] = Number(args[++at]);
    else return null;
  }
  return asked;
}

const standard: Io = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};
