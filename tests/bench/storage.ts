import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { emptyProfile, profileSchema } from '../../src/lib/model';
import { backupPieces } from '../../src/lib/server/backup';
import { readBackup } from '../../src/lib/server/backup-reading';
import { openStore, type Everything } from '../../src/lib/server/storage';
import { nineEqualSteps, recordOf } from './simulated-record';

type Io = { out: (text: string) => void; err: (text: string) => void };

const SLICE_BAR_MS = 50;
/** One saved case among many, against one among 1,000. */
const SAVE_BAR = 3;
/** A page of many cases, on a second visit, against the same page of the first row. */
const PAGE_BAR = 3;
const PAGE_BAR_CASES = 20_000;
const START_BAR_S: Readonly<Record<number, number>> = { 20_000: 2, 100_000: 8 };

const whole = (cases: number): Everything => ({
  format: 'next-twenty/everything/1',
  profile: profileSchema.parse(emptyProfile),
  procedures: [],
  lists: [],
  cases: recordOf(nineEqualSteps(cases), 3).map((each, at) => ({ ...each, id: `case-${at + 1}`, listId: null })),
  goals: [],
  results: [],
  reflections: [],
  references: [],
});

/** What a work took, and the longest that anything else would have waited meanwhile, in ms. */
async function watched<Answer>(work: () => Promise<Answer>): Promise<{ answer: Answer; ms: number; sliceMs: number }> {
  let [last, sliceMs, going] = [performance.now(), 0, true];
  const others = (async () => {
    while (going) {
      await new Promise((turn) => setImmediate(turn));
      sliceMs = Math.max(sliceMs, performance.now() - last);
      last = performance.now();
    }
  })();
  const began = performance.now();
  const answer = await work();
  const ms = performance.now() - began;
  going = false;
  await others;
  return { answer, ms, sliceMs };
}

/** What a work took, in ms, and of that in this process: on a machine with other work to do, the second stays the same. */
async function timed<Answer>(work: () => Promise<Answer>): Promise<{ answer: Answer; ms: number; cpuMs: number }> {
  const [began, before] = [performance.now(), process.cpuUsage()];
  const answer = await work();
  const { user, system } = process.cpuUsage(before);
  return { answer, ms: performance.now() - began, cpuMs: (user + system) / 1000 };
}

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;

async function measured(cases: number) {
  const folder = await mkdtemp(join(tmpdir(), 'next-twenty-bench-'));
  const now = '2026-01-01T08:00:00.000Z';
  try {
    const record = whole(cases);
    const exported = await watched(async () => {
      const pieces: Uint8Array[] = [];
      for (const piece of backupPieces(record)) {
        pieces.push(Buffer.from(piece));
        await new Promise((turn) => setImmediate(turn));
      }
      return pieces;
    });
    const read = await watched(() => readBackup(exported.answer));
    if ('problem' in read.answer) throw new Error(read.answer.problem);
    const { everything } = read.answer;
    const store = await openStore(folder, now);
    const stored = await watched(() => store.restoreEverything(everything));
    const saves: { ms: number; cpuMs: number }[] = [];
    for (let at = 0; at < 15; at += 1) {
      const one = await store.caseById(`case-${at + 1}`);
      if (!one) throw new Error('a case that was restored is not there');
      saves.push(await timed(() => store.updateCase({ ...one, position: 1 }, 'Place', now)));
    }
    await store.close();
    const start = await timed(() => openStore(folder, now));
    const there = (await start.answer.cases()).length;
    await start.answer.close();
    if (there !== cases) throw new Error(`${there} of ${cases} cases came back`);
    const pagesMs = await pages(folder);
    return {
      cases,
      megabytes: Math.round(exported.answer.reduce((sum, { length }) => sum + length, 0) / 1e6),
      exported,
      read,
      stored,
      saveMs: median(saves.map(({ ms }) => ms)),
      startMs: start.ms,
      cpu: { save: median(saves.map(({ cpuMs }) => cpuMs)), start: start.cpuMs },
      pagesMs,
    };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

const PAGES = { Cases: '/cases', Choose: '/choose', 'a case': '/cases/case-500' } as const;
type PageName = keyof typeof PAGES;
const VISITS = 5;

/** What a browser waits for each page, in ms, once it has been visited: asked of the built program on its own. */
async function pages(folder: string): Promise<Record<PageName, number>> {
  const server = spawn(process.execPath, ['src/run/serve.js'], {
    env: { ...process.env, NEXT_TWENTY_DATA: folder, PORT: '0' },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = new Promise((resolve) => server.once('exit', resolve));
  try {
    const origin = await new Promise<string>((resolve, reject) => {
      createInterface(server.stdout).on('line', (line) => resolve(line.replace('listening ', '')));
      server.once('exit', () => reject(new Error('The server did not start.')));
    });
    const took: Partial<Record<PageName, number>> = {};
    for (const [name, path] of Object.entries(PAGES)) {
      const visits: number[] = [];
      for (let visit = 0; visit <= VISITS; visit += 1) {
        const began = performance.now();
        const answer = await fetch(`${origin}${path}`);
        await answer.text();
        if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
        if (visit > 0) visits.push(performance.now() - began);
      }
      took[name as PageName] = median(visits);
    }
    return took as Record<PageName, number>;
  } finally {
    server.kill('SIGTERM');
    await ended;
  }
}

/**
 * Export, restore, one saved case, the start of the server, and pages on a second visit, with a record of so many cases,
 * on this machine's disk. The pages are asked of the built program: `npm run build` comes first.
 * @returns 0 when every bar is kept, 1 when one is missed, 2 for a wrong call
 */
export async function run(args: readonly string[], io: Io): Promise<number> {
  const sizes = args.length === 0 ? [1000, 20_000, 100_000] : args.map(Number);
  if (!sizes.every((size) => Number.isInteger(size) && size >= 100)) {
    io.err('npm run bench -- storage [CASES …]\n');
    return 2;
  }
  if (!existsSync('build/handler.js')) {
    io.err('The program has not been built yet: npm run build\n');
    return 2;
  }
  const missed: string[] = [];
  let first: number | null = null;
  let firstPages: Record<PageName, number> | null = null;
  for (const size of sizes) {
    const { cases, megabytes, exported, read, stored, saveMs, startMs, cpu, pagesMs } = await measured(size);
    first ??= saveMs;
    firstPages ??= pagesMs;
    const bar = START_BAR_S[cases];
    io.out(
      `${cases} cases, ${megabytes} MB: written ${s(exported.ms)}, read ${s(read.ms)}, stored ${s(stored.ms)}; longest slice ` +
        `${[exported, read, stored].map(({ sliceMs }) => sliceMs.toFixed(0)).join(' / ')} ms (bar ${SLICE_BAR_MS}); one case ` +
        `saved ${saveMs.toFixed(1)} ms (${cpu.save.toFixed(1)} of the processor), ${(saveMs / first).toFixed(1)} times the first row (bar ${SAVE_BAR}); start ` +
        `${s(startMs)} (${s(cpu.start)} of the processor)${bar ? ` (bar ${bar} s)` : ''}\n`,
    );
    for (const name of Object.keys(PAGES) as PageName[]) {
      const times = pagesMs[name] / firstPages[name];
      const judged = cases === PAGE_BAR_CASES;
      io.out(
        `  ${name}, second visit: ${pagesMs[name].toFixed(0)} ms, ${times.toFixed(1)} times the first row` +
          `${judged ? ` (bar ${PAGE_BAR})` : ''}\n`,
      );
      if (judged && times > PAGE_BAR) missed.push(`${name} at ${cases}`);
    }
    for (const [name, { sliceMs }] of Object.entries({ exported, read, stored }))
      if (sliceMs > SLICE_BAR_MS) missed.push(`slice while ${name} at ${cases}`);
    if (saveMs > SAVE_BAR * first) missed.push(`one saved case at ${cases}`);
    if (bar && startMs > bar * 1000) missed.push(`start at ${cases}`);
  }
  io.out(missed.length === 0 ? 'Every bar is kept.\n' : `Missed: ${missed.join(', ')}.\n`);
  return missed.length === 0 ? 0 : 1;
}

const s = (ms: number) => `${(ms / 1000).toFixed(1)} s`;
