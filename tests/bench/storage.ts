import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { emptyProfile, profileSchema } from '../../src/lib/model';
import { backupPieces } from '../../src/lib/server/backup';
import { readBackup } from '../../src/lib/server/backup-reading';
import { openStore, type Everything } from '../../src/lib/server/storage';
import { nineEqualSteps, recordOf } from './simulated-record';

type Io = { out: (text: string) => void; err: (text: string) => void };

const SLICE_BAR_MS = 50;
/** One saved case among many, against one among 1,000. */
const SAVE_BAR = 3;
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
    const saves: number[] = [];
    for (let at = 0; at < 15; at += 1) {
      const one = await store.caseById(`case-${at + 1}`);
      if (!one) throw new Error('a case that was restored is not there');
      saves.push((await watched(() => store.updateCase({ ...one, position: 1 }, 'Place', now))).ms);
    }
    await store.close();
    const start = await watched(() => openStore(folder, now));
    const there = (await start.answer.cases()).length;
    await start.answer.close();
    if (there !== cases) throw new Error(`${there} of ${cases} cases came back`);
    return {
      cases,
      megabytes: Math.round(exported.answer.reduce((sum, { length }) => sum + length, 0) / 1e6),
      exported,
      read,
      stored,
      saveMs: median(saves),
      startMs: start.ms,
    };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/**
 * Export, restore, one saved case and the start of the server, with a record of so many cases, on this machine's disk.
 * @returns 0 when every bar is kept, 1 when one is missed, 2 for a wrong call
 */
export async function run(args: readonly string[], io: Io): Promise<number> {
  const sizes = args.length === 0 ? [1000, 20_000, 100_000] : args.map(Number);
  if (!sizes.every((size) => Number.isInteger(size) && size >= 100)) {
    io.err('npm run bench -- storage [CASES …]\n');
    return 2;
  }
  const missed: string[] = [];
  let first: number | null = null;
  for (const size of sizes) {
    const { cases, megabytes, exported, read, stored, saveMs, startMs } = await measured(size);
    first ??= saveMs;
    const bar = START_BAR_S[cases];
    io.out(
      `${cases} cases, ${megabytes} MB: written ${s(exported.ms)}, read ${s(read.ms)}, stored ${s(stored.ms)}; longest slice ` +
        `${[exported, read, stored].map(({ sliceMs }) => sliceMs.toFixed(0)).join(' / ')} ms (bar ${SLICE_BAR_MS}); one case ` +
        `saved ${saveMs.toFixed(1)} ms, ${(saveMs / first).toFixed(1)} times the first row (bar ${SAVE_BAR}); start ` +
        `${s(startMs)}${bar ? ` (bar ${bar} s)` : ''}\n`,
    );
    for (const [name, { sliceMs }] of Object.entries({ exported, read, stored }))
      if (sliceMs > SLICE_BAR_MS) missed.push(`slice while ${name} at ${cases}`);
    if (saveMs > SAVE_BAR * first) missed.push(`one saved case at ${cases}`);
    if (bar && startMs > bar * 1000) missed.push(`start at ${cases}`);
  }
  io.out(missed.length === 0 ? 'Every bar is kept.\n' : `Missed: ${missed.join(', ')}.\n`);
  return missed.length === 0 ? 0 : 1;
}

const s = (ms: number) => `${(ms / 1000).toFixed(1)} s`;
