import { auditInSlices, auditOf } from '../../src/lib/audit';
import type { Case } from '../../src/lib/model';
import { startGoal, resultFor } from '../../src/lib/practice';
import type { Slices } from '../../src/lib/turns';
import { assessManyRatio } from './assess-many';
import { chooseAfterImportRatio } from './choose-after-import';
import { longWorks, oddFiles } from './long-works';
import { fact, procedure, step } from '../made-up/cases';
import { plainLoop } from './plain-loop';
import { recordOf, referenceOf, stepIds, type World } from './simulated-record';

const USAGE = 'npm run bench -- speed [--cases 200,1000,5000,20000] [--json]';

type Io = { out: (text: string) => void; err: (text: string) => void };

type Row = {
  cases: number;
  plainMs: number;
  auditMs: number;
  ratio: number;
  bar: number | null;
  /** Longest time the audit of the latest 100, as the screens ask for it, keeps others waiting. */
  sliceMs: number;
};

const STEPS = 11;
const RESAMPLES = 2000;
/** The plain loop at many cases takes half a minute: fewer resamples are timed and the time scaled up. */
const PLAIN_RESAMPLES = (cases: number) => (cases <= 1000 ? RESAMPLES : 300);
/** Most that the whole audit may take of the plain loop's time; nothing is promised of a short record, where the fixed part weighs. */
const BARS: readonly (readonly [from: number, bar: number])[] = [
  [5000, 0.2],
  [1000, 0.25],
];
const RESULT_BAR = 1 / 20;
const EXPONENT_BAR = 1.1;
const SLICE_BAR_MS = 50;
/** 300 files in one call, in times one file. */
const ASSESS_BAR = 60;
/** The first visit to Choose after an import, in times the second. */
const CHOOSE_BAR = 1.2;

const nucleus = fact('nucleus', 'choice', ['medium', 'hard', 'white']);
const phaco = procedure(
  stepIds(STEPS).map((id, place) => step(id, { earlier: place > 1 ? [`s${place}`, `s${place - 1}`] : [] })),
  [nucleus, fact('pupil-small', 'yes-no'), fact('axial-length', 'number')],
);

/** Eleven steps, lists of five, a tenth of the steps missing, three facts of the eye. */
const world = (cases: number): World => ({
  cases,
  usual: Array.from({ length: STEPS }, (_, place) => 20 + 15 * place),
  missing: 0.1,
  eye: (stream) => {
    const hard = stream.uniform() < 0.2;
    const facts = {
      nucleus: hard ? 'hard' : stream.uniform() < 0.1 ? 'white' : 'medium',
      'pupil-small': stream.uniform() < 0.15,
      'axial-length': 23.5 + stream.normal(),
    };
    return { facts, effect: (place) => (hard && place > 5 ? 0.3 : 0) };
  },
});

/**
 * Times the whole of Choose (2,000 resamples of lists, all views, all ranks, patterns) against a plain loop that only draws
 * the same resamples, copies, sorts and reads median and 20th percentile, in one run, so that the ratios hold on any machine.
 *
 * @returns 0 when every bar is kept, 1 when one is missed, 2 for a wrong call.
 */
export async function run(args: readonly string[], io: Io = standard): Promise<number> {
  const asked = options(args);
  if (!asked) {
    io.err(`${USAGE}\n`);
    return 2;
  }
  const rows: Row[] = [];
  for (const cases of asked.cases) {
    io.err(`${cases} cases …\n`);
    rows.push(await measured(cases));
  }
  const exponent = growth(rows.filter(({ cases }) => cases >= 1000));
  const thousand = rows.find(({ cases }) => cases === 1000);
  const resultMs = timed(3, resultOnHundred());
  const resultRatio = thousand ? resultMs / thousand.plainMs : null;
  const works: SlicedWork[] = [];
  for (const [name, work] of [...longWorks, ...oddFiles]) works.push({ name, sliceMs: await longestSlice(work) });
  const choose = await chooseAfterImportRatio();
  const assessMany = assessManyRatio();
  const peakMegabytes = Math.round(process.resourceUsage().maxRSS / 1024);
  const missed = [
    ...rows.filter(({ ratio, bar }) => bar !== null && ratio > bar).map(({ cases }) => `ratio at ${cases} cases`),
    ...rows.filter(({ sliceMs }) => sliceMs > SLICE_BAR_MS).map(({ cases }) => `slice at ${cases} cases`),
    ...works.filter(({ sliceMs }) => sliceMs > SLICE_BAR_MS).map(({ name }) => `slice of ${name}`),
    ...(exponent !== null && exponent > EXPONENT_BAR ? ['growth'] : []),
    ...(resultRatio !== null && resultRatio > RESULT_BAR ? ['result on 100 cases'] : []),
    ...(choose.ratio > CHOOSE_BAR ? ['Choose after an import'] : []),
    ...(assessMany.ratio > ASSESS_BAR ? ['assess of 300 files'] : []),
  ];
  const report = {
    resamples: RESAMPLES,
    steps: STEPS,
    rows,
    works,
    exponent,
    resultMs,
    resultRatio,
    choose,
    assessMany,
    peakMegabytes,
    missed,
  };
  io.out(asked.json ? `${JSON.stringify(report)}\n` : `${inWords(report)}\n`);
  return missed.length === 0 ? 0 : 1;
}

/** Short work is timed more often: there a pause of the engine's own weighs most. */
const repeats = (cases: number) => (cases <= 1000 ? 7 : cases <= 5000 ? 3 : 2);

async function measured(cases: number): Promise<Row> {
  const record = recordOf(world(cases), 1);
  const references = [referenceOf(world(60), 2)];
  const audit = () =>
    auditOf({ cases: record, lists: [], procedure: phaco, references, seed: 1, resamples: RESAMPLES, shown: cases });
  const auditMs = timed(repeats(cases), audit);
  const some = PLAIN_RESAMPLES(cases);
  const plainMs =
    (timed(cases <= 1000 ? repeats(cases) : 1, () => plainLoop(record, STEPS, 1, some)) * RESAMPLES) / some;
  const bar = BARS.find(([from]) => cases >= from)?.[1] ?? null;
  const sliceMs = await longestSlice((slices) =>
    auditInSlices({ cases: record, lists: [], procedure: phaco, references, seed: 1 }, slices),
  );
  return { cases, plainMs, auditMs, ratio: auditMs / plainMs, bar, sliceMs };
}

/**
 * Best of three runs, milliseconds: in the first the engine compiles, which no slicing can part. Of each slice the shorter of
 * processor time (which counts the engine's helper threads too) and of the clock (which counts other programs): neither is
 * less than what the thread was kept from answering.
 */
async function longestSlice(work: (slices: Slices) => Promise<unknown>): Promise<number> {
  let best = Infinity;
  for (let run = 0; run < 3; run += 1) {
    let longest = 0;
    let from = process.cpuUsage();
    let clock = performance.now();
    const pause = async () => {
      const { user, system } = process.cpuUsage(from);
      longest = Math.max(longest, Math.min((user + system) / 1000, performance.now() - clock));
      await new Promise((resolve) => setImmediate(resolve));
      from = process.cpuUsage();
      clock = performance.now();
    };
    await work({ pause });
    best = Math.min(best, longest);
  }
  return best;
}

/** The result of a goal, baseline cases and window fixed: 80 baseline cases and twenty. The allowance was fixed with the goal. */
function resultOnHundred(): () => unknown {
  const record: Case[] = recordOf(world(100), 3);
  const common = { lists: [], procedure: phaco, stepId: 's4', seed: 1 };
  const started = startGoal({
    ...common,
    cases: record.slice(0, 80),
    references: [],
    measure: 'time',
    chosenBy: 'seconds',
    engine: 'bench',
  });
  if (started.kind !== 'start') throw new Error('the bench could not start its goal');
  const windowIds = record.slice(80).map(({ id }) => id);
  return () =>
    resultFor({ ...common, cases: record, baseline: started.baseline, windowIds, measure: 'time', look: 'first' });
}

/** Best of some runs, milliseconds of processor time: what the machine does beside is not ours. */
function timed(times: number, work: () => unknown): number {
  let best = Infinity;
  for (let run = 0; run < times; run += 1) {
    const from = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(from);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

/** Least-squares slope of log time on log cases. */
function growth(rows: readonly Row[]): number | null {
  if (rows.length < 2) return null;
  const points = rows.map(({ cases, auditMs }) => [Math.log(cases), Math.log(auditMs)] as const);
  const mean = (index: 0 | 1) => points.reduce((sum, point) => sum + point[index], 0) / points.length;
  const [mx, my] = [mean(0), mean(1)];
  const across = points.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0);
  return across / points.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
}

type SlicedWork = { name: string; sliceMs: number };

type Report = {
  rows: readonly Row[];
  works: readonly SlicedWork[];
  exponent: number | null;
  resultMs: number;
  resultRatio: number | null;
  choose: { firstMs: number; secondMs: number; ratio: number };
  assessMany: { oneMs: number; manyMs: number; ratio: number };
  peakMegabytes: number;
  missed: readonly string[];
};

function inWords(report: Report): string {
  const { rows, works, exponent, resultMs, resultRatio, choose, assessMany, peakMegabytes, missed } = report;
  const table = rows.map(
    ({ cases, plainMs, auditMs, ratio, bar, sliceMs }) =>
      `${String(cases).padStart(6)}  plain ${plainMs.toFixed(0).padStart(6)} ms  audit ${auditMs.toFixed(0).padStart(5)} ms  ratio ${ratio.toFixed(3)}${bar === null ? '' : ` (bar ${bar})`}  longest slice ${sliceMs.toFixed(0)} ms`,
  );
  return [
    ...table,
    ...works.map(({ name, sliceMs }) => `longest slice of ${name}: ${sliceMs.toFixed(0)} ms (bar ${SLICE_BAR_MS})`),
    exponent === null ? '' : `growth exponent from 1,000 cases: ${exponent.toFixed(2)} (bar ${EXPONENT_BAR})`,
    `result on 100 cases: ${resultMs.toFixed(1)} ms${resultRatio === null ? '' : `, ${resultRatio.toFixed(4)} of the plain loop at 1,000 (bar ${RESULT_BAR})`}`,
    `Choose after an import: ${choose.firstMs.toFixed(1)} ms, then ${choose.secondMs.toFixed(1)} ms, ratio ${choose.ratio.toFixed(2)} (bar ${CHOOSE_BAR})`,
    `assess of 300 files: ${assessMany.manyMs.toFixed(0)} ms, of one ${assessMany.oneMs.toFixed(0)} ms, ratio ${assessMany.ratio.toFixed(1)} (bar ${ASSESS_BAR})`,
    `peak memory of this whole run: ${peakMegabytes} MB`,
    missed.length === 0 ? 'Every bar is kept.' : `Missed: ${missed.join(', ')}.`,
  ]
    .filter((line) => line !== '')
    .join('\n');
}

function options(args: readonly string[]): { cases: number[]; json: boolean } | null {
  const asked = { cases: [200, 1000, 5000, 20000], json: false };
  for (let at = 0; at < args.length; at += 1) {
    if (args[at] === '--json') asked.json = true;
    else if (args[at] === '--cases') asked.cases = (args[(at += 1)] ?? '').split(',').map(Number);
    else return null;
  }
  return asked.cases.every((count) => Number.isInteger(count) && count >= 20) ? asked : null;
}

const standard: Io = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};
