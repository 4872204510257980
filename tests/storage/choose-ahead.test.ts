import { describe, expect, it } from 'vitest';
import { procedureOf } from '../../src/lib/model';
import { shownAudit } from '../../src/lib/server/audits';
import { chooseAhead } from '../../src/lib/server/choose';
import { readRecord } from '../../src/lib/server/record';
import { openMemoryStore } from '../../src/lib/server/storage';
import { aBatch, aNewCase, now } from '../made-up/stored';

/** A computed audit lets others have a turn before it answers; one that was kept does not. */
async function answersAtOnce(store: Awaited<ReturnType<typeof openMemoryStore>>): Promise<boolean> {
  const record = await readRecord(store);
  const turn = new Promise<false>((resolve) => setImmediate(() => resolve(false)));
  return Promise.race([shownAudit(record, procedureOf(record, 'phaco')).then(() => true as const), turn]);
}

async function imported(prefix: string) {
  const store = await openMemoryStore();
  const cases = Array.from({ length: 40 }, (_, at) => aNewCase(`${prefix}${at + 1}`, at + 2));
  const held = await store.holdImport({ heldAt: now, fileName: 'a.csv', text: '', choices: {} });
  await store.recordImport(held, aBatch({ cases }), 'hash', now);
  return store;
}

describe('Choose after an import', () => {
  it('finds its audit done', async () => {
    const store = await imported('A');
    await chooseAhead(store, 'phaco');
    expect(await answersAtOnce(store)).toBe(true);
  });

  it('would have to compute it otherwise', async () => {
    expect(await answersAtOnce(await imported('B'))).toBe(false);
  });

  it('is asked for again where working ahead fails', async () => {
    const store = await imported('C');
    await expect(
      chooseAhead({ ...store, cases: () => Promise.reject(new Error('gone')) }, 'phaco'),
    ).resolves.toBeUndefined();
    expect(await answersAtOnce(store)).toBe(false);
  });
});
