import { spawn } from 'node:child_process';
import { rm } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { setTimeout as wait } from 'node:timers/promises';
import { openStore } from '../../src/lib/server/storage';
import { useKey } from '../../src/lib/server/storage/disk/sealed';
import { randomStream, type RandomStream } from '../../src/lib/statistics';
import { freshIn, powerCuts, type Outcome } from '../storage/campaign/cuts';
import { damagedFiles } from '../storage/campaign/damage';
import { callsOf, failingAt, type Failure } from '../storage/campaign/failing-calls';
import { tabsAtOnce } from '../storage/campaign/tabs';
import { STEPS } from '../storage/campaign/workload';
import { aBatch, aCase, aNewCase, aNewList, now } from '../made-up/stored';

type Io = { out: (text: string) => void; err: (text: string) => void };

const TABS = 200;
/** A folder is used for so many kills, so that what a kill left is met by the next start, and a record stays small. */
const KILLS_A_FOLDER = 25;
const LONGEST_MS = 150;

const KEY = { keyId: '0102030405060708', key: Buffer.alloc(32, 7) };

/** What a killed process runs: changes of one file and of several, each told once it is acknowledged. */
export async function child(folder: string, from: number, encrypted: boolean): Promise<void> {
  if (encrypted) useKey(folder, KEY, true);
  const store = await openStore(folder, now);
  for (let number = from; ; number += 1) {
    const alone = await store.recordCase(aCase(`one-${number}`, { sequence: number }));
    const held = await store.holdImport({
      heldAt: now,
      fileName: `${number}.csv`,
      text: 'x'.repeat(2000),
      choices: {},
    });
    const batch = aBatch({
      lists: [{ ...aNewList('list', '2026-03-02'), label: `list ${number}` }],
      cases: [aNewCase(`many-${number}`, 2, { list: 'list' })],
    });
    await store.recordImport(held, batch, 'hash', now);
    await store.updateCase({ ...alone, position: 7 }, 'Place', now);
    process.stdout.write(`${number}\n`);
  }
}

async function killed(folder: string, from: number, encrypted: boolean, stream: RandomStream): Promise<number[]> {
  const program = `import(${JSON.stringify(import.meta.url)}).then((bench) => bench.child(${JSON.stringify(folder)}, ${from}, ${encrypted}))`;
  const process_ = spawn(process.execPath, ['-e', program], { stdio: ['ignore', 'pipe', 'inherit'] });
  const said: number[] = [];
  const reader = createInterface(process_.stdout);
  const first = new Promise<void>((told) => reader.once('line', () => told()));
  reader.on('line', (line) => said.push(Number(line)));
  const over = Promise.all([
    new Promise((resolve) => process_.once('exit', resolve)),
    new Promise((resolve) => reader.once('close', resolve)),
  ]);
  await Promise.race([first, over]);
  await wait(stream.uniform() * LONGEST_MS);
  process_.kill('SIGKILL');
  await over;
  return said;
}

/** Kills at random moments; what each process was told is there after the next start, and no change by half. */
async function kills(count: number, encrypted: boolean): Promise<Outcome> {
  const stream = randomStream(12);
  const outcome: Outcome = { acknowledged: 0, found: 0, lost: [], states: 0 };
  for (let done = 0; done < count;) {
    const folder = await freshIn();
    if (encrypted) useKey(folder, KEY, true);
    let from = 1;
    try {
      for (let here = 0; here < KILLS_A_FOLDER && done < count; here += 1, done += 1) {
        const said = await killed(folder, from, encrypted, stream);
        const store = await openStore(folder, now);
        const cases = new Map((await store.cases()).map((each) => [each.code, each]));
        const lists = new Set((await store.lists()).map(({ id }) => id));
        const damaged = await store.damaged();
        await store.close();
        outcome.states += 1;
        outcome.acknowledged += said.length;
        const lost = said.filter(
          (number) => cases.get(`one-${number}`)?.position !== 7 || !cases.has(`many-${number}`),
        );
        outcome.found += said.length - lost.length;
        for (const number of lost)
          outcome.lost.push(`kill ${done + 1}: change ${number} was acknowledged and is not there`);
        for (const { name } of damaged) outcome.lost.push(`kill ${done + 1}: ${name} cannot be read`);
        for (const [code, { listId }] of cases)
          if (code.startsWith('many-') && !lists.has(listId ?? ''))
            outcome.lost.push(`kill ${done + 1}: ${code} by half`);
        const numbers = [...cases.keys()].map((code) => Number(code.split('-')[1]));
        from = Math.max(0, ...numbers) + 1;
      }
    } finally {
      useKey(folder, null, false);
      await rm(folder, { recursive: true, force: true });
    }
  }
  return outcome;
}

async function eachCall(failure: Failure): Promise<Outcome> {
  const calls = await callsOf(STEPS);
  const outcome: Outcome = { acknowledged: 0, found: 0, lost: [], states: 0 };
  for (let call = 1; call <= calls; call += 1) {
    const one = await failingAt(STEPS, call, failure);
    outcome.acknowledged += one.acknowledged;
    outcome.found += one.found;
    outcome.states += 1;
    outcome.lost.push(...one.lost);
  }
  return outcome;
}

const MOST_TOLD = 5;

/**
 * The campaign of faults on the disk adapter: `KILLS` (300) killed processes, and as many with encrypted files, and `CUTS` (25)
 * power cuts, each in every order in which the disk may have written; EIO and a full disk at each call; each file damaged in five ways; tabs at once. How rooms
 * answer where a file is damaged is asked by `npm test`. Prints what was acknowledged, found and lost.
 * @returns 0 when nothing was lost, 1 when something was, 2 for a wrong call
 */
export async function run(args: readonly string[], io: Io): Promise<number> {
  const [killCount = 300, cutCount = 25] = args.map(Number);
  if (args.length > 2 || ![killCount, cutCount].every((each) => Number.isInteger(each) && each >= 1)) {
    io.err('npm run bench -- faults [KILLS [CUTS]]\n');
    return 2;
  }
  const stream = randomStream(25);
  const cutLines = function* (lines: number) {
    for (let cut = 0; cut < cutCount; cut += 1) yield 1 + Math.floor(stream.uniform() * lines);
  };
  const parts: [string, () => Promise<Outcome>][] = [
    [`${killCount} kills`, () => kills(killCount, false)],
    [`${killCount} kills, files encrypted`, () => kills(killCount, true)],
    [`${cutCount} power cuts`, () => powerCuts([...STEPS, ...STEPS], cutLines)],
    ['EIO at each call', () => eachCall({ code: 'EIO', lasting: false })],
    ['a full disk from each call on', () => eachCall({ code: 'ENOSPC', lasting: true })],
    ['each file damaged in five ways', damagedFiles],
    [`${TABS} tabs at once`, () => tabsAtOnce(TABS)],
  ];
  let lostInAll = 0;
  for (const [name, work] of parts) {
    const began = performance.now();
    const { acknowledged, found, lost, states } = await work();
    lostInAll += lost.length;
    io.out(
      `${name}: ${states} starts after it; acknowledged ${acknowledged}, found ${found}, lost ${lost.length} ` +
        `(${((performance.now() - began) / 1000).toFixed(0)} s)\n`,
    );
    for (const each of lost.slice(0, MOST_TOLD)) io.out(`  ${each}\n`);
  }
  io.out(lostInAll === 0 ? 'Nothing was lost.\n' : `${lostInAll} lost.\n`);
  return lostInAll === 0 ? 0 : 1;
}
