import { TheRecord } from '../../src/lib/server/access/the-record';
import { openStore, StorageError } from '../../src/lib/server/storage';
import { aBatch, aCase, aNewCase, aNewList, now } from '../made-up/stored';

/**
 * A program of its own for tests that need a second process: bundled, started and killed by them.
 * `hold FOLDER`: opens the record, says `held` or `locked …`, and waits. `write FOLDER START`: saves without end from number
 * START on, one file and several files in turn, and says each number once it is acknowledged.
 */
const [mode, folder = '', start = '1'] = process.argv.slice(2);
const say = (line: string) => process.stdout.write(`${line}\n`);

try {
  if (mode === 'switch') {
    const record = await TheRecord.at(folder, 'loopback', now, 2 ** 4);
    const signed = await record.access.signIn('a lamp in the window', 'a', 0);
    if (signed.refused) throw new Error(signed.refused.message);
    await record.open(signed.data, now);
    say('begun');
    await record.access.turn(start === 'sealing' ? 'sealing' : 'opening', 'a lamp in the window', 'a', 0);
    await record.openAgain(signed.data, now);
    setInterval(() => {}, 1000);
    await new Promise(() => {});
  }
  const store = await openStore(folder, now);
  if (mode === 'hold') {
    say('held');
    setInterval(() => {}, 1000);
  }
  for (let number = Number(start); mode === 'write'; number += 1) {
    await store.recordCase(aCase(`one-${number}`, { sequence: number }));
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
    say(`acknowledged ${number}`);
  }
} catch (why) {
  say(why instanceof StorageError ? `${why.code} ${why.message}` : String(why));
  process.exit(1);
}
