import { rm } from 'node:fs/promises';
import { openStore } from '../../../src/lib/server/storage';
import { now } from '../../made-up/stored';
import { freshIn, type Outcome } from './cuts';
import { FakeDisk, type Call } from './fake-disk';
import { isSame, stateOf, type Step } from './workload';

/** How the disk fails: this call alone, or from it on until the change has been refused (a full disk makes no room by itself). */
export type Failure = { code: 'EIO' | 'ENOSPC'; lasting: boolean };

const takesRoom = (call: Call) =>
  call === 'open' || call === 'write' || call === 'mkdir' || call === 'link' || call === 'copy';

/** How many calls these steps make once the store is open. */
export async function callsOf(steps: readonly Step[]): Promise<number> {
  return (await oneRun(steps, 0, { code: 'EIO', lasting: false })).calls;
}

/**
 * The disk refuses one call of a run. A change that was acknowledged must be there, one that was refused must have left no
 * trace, while the program runs and after the next start.
 */
export async function failingAt(steps: readonly Step[], call: number, failure: Failure): Promise<Outcome> {
  const { acknowledged, lost } = await oneRun(steps, call, failure);
  return { acknowledged, found: lost.length === 0 ? acknowledged : 0, lost, states: 1 };
}

async function oneRun(
  steps: readonly Step[],
  call: number,
  { code, lasting }: Failure,
): Promise<{ calls: number; acknowledged: number; lost: string[] }> {
  const folder = await freshIn();
  const disk = new FakeDisk(folder);
  const { error } = console;
  console.error = () => {}; // that a stored change waits in its journal is said there
  const lost: string[] = [];
  let acknowledged = 0;
  try {
    const store = await openStore(folder, now);
    const begun = disk.calls;
    let failing = false;
    disk.refuse = (kind, _, number) => {
      if (number - begun === call) failing = true;
      if (!failing || (lasting && !takesRoom(kind))) return null;
      if (!lasting) failing = false;
      return code;
    };
    let expected: object[] = [await stateOf(store)];
    for (const [number, step] of steps.entries()) {
      try {
        await step.change(store, number + 1);
        acknowledged += 1;
        expected = [await stateOf(store)];
      } catch (why) {
        if (String(why).includes('not known')) {
          expected = []; // said honestly: it may be there or not
          break;
        }
        if (!isSame(expected[0] ?? {}, await stateOf(store)))
          lost.push(`${step.name} was refused and changed something`);
      }
      failing = false;
    }
    disk.refuse = () => null;
    await store.close();
    const calls = disk.calls - begun;
    const again = await openStore(folder, now);
    const state = (await again.damaged()).length === 0 ? await stateOf(again) : {};
    await again.close();
    if (expected.length > 0 && !expected.some((each) => isSame(each, state)))
      lost.push(`after the next start the record is another (call ${call})`);
    return { calls, acknowledged, lost };
  } finally {
    console.error = error;
    disk.remove();
    await rm(folder, { recursive: true, force: true });
  }
}
