import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { openStore } from '../../../src/lib/server/storage';
import { now } from '../../made-up/stored';
import { FakeDisk, type Tree } from './fake-disk';
import { isSame, STEPS, stateOf, type Step } from './workload';

/** `acknowledged`: changes looked for; `found`: there again; `lost`: what was not, in words. */
export type Outcome = { acknowledged: number; found: number; lost: string[]; states: number };

export const freshIn = () => mkdtemp(join(tmpdir(), 'next-twenty-campaign-'));

/**
 * Power cuts: a run of steps on a disk that notes everything, then every state that a cut at some of its moments may leave.
 * Each must open, and hold all that was acknowledged by then and nothing but that or the change under way.
 * @param at which lines of the log to cut after, given how many there are
 */
export async function powerCuts(steps: readonly Step[], at: (lines: number) => Iterable<number>): Promise<Outcome> {
  const folder = await freshIn();
  const disk = new FakeDisk(folder);
  const acknowledged: { line: number; state: object }[] = [];
  try {
    const store = await openStore(folder, now);
    acknowledged.push({ line: 0, state: await stateOf(store) });
    for (const [number, step] of steps.entries()) {
      await step.change(store, number + 1);
      acknowledged.push({ line: disk.log.length, state: await stateOf(store) });
    }
    await store.close();
  } finally {
    disk.remove();
    await rm(folder, { recursive: true, force: true });
  }
  const outcome: Outcome = { acknowledged: 0, found: 0, lost: [], states: 0 };
  for (const line of at(disk.log.length)) {
    const done = acknowledged.filter((each) => each.line <= line).length - 1;
    const allowed = acknowledged.slice(done, done + 2).map(({ state }) => state);
    for (const tree of disk.after(line)) {
      outcome.states += 1;
      outcome.acknowledged += done;
      const wrong = await wrongIn(tree, allowed);
      if (wrong === null) outcome.found += done;
      else outcome.lost.push(`cut after ${line} of ${disk.log.length} lines, ${done} changes acknowledged: ${wrong}`);
    }
  }
  return outcome;
}

/** @returns what is wrong with a folder of that form, or `null` */
async function wrongIn(tree: Tree, allowed: readonly object[]): Promise<string | null> {
  const folder = await freshIn();
  try {
    for (const [path, text] of tree) {
      if (path.startsWith('owner.lock')) continue; // of a process of ours that still runs
      await mkdir(join(folder, dirname(path)), { recursive: true });
      await writeFile(join(folder, path), text);
    }
    const store = await openStore(folder, now);
    const damaged = await store.damaged();
    const state = damaged.length === 0 ? await stateOf(store) : {};
    await store.close();
    if (damaged.length > 0) return `${damaged.map(({ name }) => name).join(', ')} cannot be read`;
    return allowed.some((each) => isSame(each, state)) ? null : 'the record is another';
  } catch (why) {
    return String(why);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

export { STEPS };
