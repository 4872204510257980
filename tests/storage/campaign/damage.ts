import { cp, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { openStore } from '../../../src/lib/server/storage';
import { now } from '../../made-up/stored';
import { freshIn, type Outcome } from './cuts';
import { isSame, stateOf, STEPS } from './workload';

const WAYS: readonly [string, (text: Buffer) => Buffer | null][] = [
  ['cut off', (text) => text.subarray(0, text.length / 2)],
  ['empty', () => Buffer.alloc(0)],
  ['zeros', (text) => Buffer.alloc(text.length)],
  ['one byte turned', (text) => Buffer.from(text.map((byte, at) => (at === text.length >> 1 ? byte ^ 0x80 : byte)))],
  ['gone', () => null],
];

/**
 * Each file of a record damaged in each way: the others are as they were, the damage is named, and where there is a good backup
 * the file comes back from it. `acknowledged`: files there were; `found`: readable at once, or brought back.
 */
export async function damagedFiles(): Promise<Outcome> {
  const origin = await freshIn();
  const outcome: Outcome = { acknowledged: 0, found: 0, lost: [], states: 0 };
  try {
    const store = await openStore(origin, now);
    for (let round = 0; round < 2; round += 1)
      for (const [number, step] of STEPS.slice(0, 8).entries()) await step.change(store, round * 10 + number + 1);
    await store.close();
    const { documents } = JSON.parse(await readFile(join(origin, 'contents.json'), 'utf8')) as { documents: string[] };
    for (const name of documents)
      for (const [way, damage] of WAYS) {
        outcome.states += 1;
        outcome.acknowledged += documents.length;
        const wrong = await oneDamage(origin, name, damage, documents.length);
        outcome.found += wrong.found;
        if (wrong.lost) outcome.lost.push(`${name} ${way}: ${wrong.lost}`);
      }
    return outcome;
  } finally {
    await rm(origin, { recursive: true, force: true });
  }
}

async function oneDamage(origin: string, name: string, damage: (text: Buffer) => Buffer | null, files: number) {
  const folder = await freshIn();
  const { error } = console;
  console.error = () => {};
  try {
    await cp(origin, folder, { recursive: true });
    const path = join(folder, `${name}.json`);
    const text = damage(await readFile(path));
    await (text === null ? rm(path) : writeFile(path, text));
    const store = await openStore(folder, now);
    const damaged = (await store.damaged()).map((each) => each.name);
    const backup = await store.newestBackup(name);
    let lost = '';
    if (damaged.length > 1 || damaged.some((each) => each !== name)) lost = `${damaged.join(', ')} cannot be read`;
    else if (damaged.length === 1 && backup) {
      await store.replaceDamaged(name, 'backup');
      if ((await store.damaged()).length > 0) lost = 'it did not come back from its backup';
    } else if (damaged.length === 0) {
      // A turned byte may fall into a text and leave a file that can be read: nothing here can know.
      const before = await openStore(await copyOf(origin), now);
      if (!isSame(await stateOf(before), await stateOf(store)) && text?.length === 0)
        lost = 'an empty file was taken for a record';
      await before.close();
      await rm(before.place, { recursive: true, force: true });
    }
    await store.close();
    const readable = files - (damaged.length === 1 && !backup ? 1 : 0);
    return { found: lost ? 0 : readable, lost };
  } catch (why) {
    return { found: 0, lost: String(why) };
  } finally {
    console.error = error;
    await rm(folder, { recursive: true, force: true });
  }
}

async function copyOf(origin: string): Promise<string> {
  const folder = await freshIn();
  await cp(origin, folder, { recursive: true });
  return folder;
}
