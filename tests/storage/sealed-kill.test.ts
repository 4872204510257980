import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { TheRecord } from '../../src/lib/server/access/the-record';
import { isSealed } from '../../src/lib/server/storage/disk/sealed';
import { bundleChildProgram, startChild } from './child';
import { aCase, now } from '../made-up/stored';
import { freshFolder } from './stores';

bundleChildProgram();

const CHEAP = 2 ** 4;
const WORDS = 'a lamp in the window';
const CASES = 30;
/** Milliseconds after the switch was begun. */
const moments = [0, 2, 4, 6, 9, 12, 16, 21, 27, 34, 45, 60, 80, 110];

/** Every file of the record, with its form. */
async function formsIn(folder: string, inside = ''): Promise<[name: string, sealed: boolean][]> {
  const found: [string, boolean][] = [];
  for (const entry of await readdir(join(folder, inside), { withFileTypes: true })) {
    const name = join(inside, entry.name);
    if (entry.isDirectory()) found.push(...(await formsIn(folder, name)));
    else if (name.endsWith('.json') && name !== 'passphrase.json')
      found.push([name, isSealed(await readFile(join(folder, name)))]);
  }
  return found.sort();
}

it('a switch killed at any moment loses nothing: each file stands there once, and the next start finishes it', async () => {
  const folder = await freshFolder();
  const first = await TheRecord.at(folder, 'loopback', now, CHEAP);
  for (let nth = 1; nth <= CASES; nth += 1) await first.store?.recordCase(aCase(`case ${nth}`, { sequence: nth }));
  await first.access.set({ old: '', text: WORDS, again: WORDS }, 'a', 0);
  await first.close();
  const names = (await formsIn(folder)).map(([name]) => name);
  let [mixed, halfway] = [0, 0];

  for (const [nth, moment] of [...moments, ...moments].entries()) {
    const to = nth % 2 === 0 ? 'sealing' : 'opening';
    const child = startChild('switch', folder, to);
    expect(await child.firstLine).toBe('begun');
    await wait(moment);
    child.process.kill('SIGKILL');
    await child.ended;
    const forms = await formsIn(folder);
    expect(forms.map(([name]) => name).filter((name) => !name.startsWith('.'))).toEqual(names);
    if (new Set(forms.map(([, sealed]) => sealed)).size > 1) mixed += 1;

    const record = await TheRecord.at(folder, 'loopback', now, CHEAP);
    const decided = record.access.files;
    if (decided === 'sealing' || decided === 'opening') halfway += 1;
    const signed = await record.access.signIn(WORDS, 'a', 0);
    if (signed.refused) throw new Error(signed.refused.message);
    const store = await record.open(signed.data, now);
    expect([await store.damaged(), (await store.cases()).length]).toEqual([[], CASES]);
    await record.close();
    const after = await formsIn(folder);
    expect(new Set(after.map(([, sealed]) => sealed))).toEqual(
      new Set([decided === 'sealing' || decided === 'sealed']),
    );
    expect(after.map(([name]) => name)).toEqual(names);
  }
  expect([mixed > 0, halfway > 0]).toEqual([true, true]); // some kills did meet it half-way
}, 120_000);
