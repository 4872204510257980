import { chooseAhead, readChoose } from '../../src/lib/server/choose';
import { loadProcedures } from '../../src/lib/server/content/library';
import { itemAt } from '../../src/lib/item-at';
import { readRecord } from '../../src/lib/server/record';
import { openMemoryStore, type Store } from '../../src/lib/server/storage';
import { aBatch, aNewCase, now } from '../made-up/stored';
import { recordOf } from './simulated-record';

const CASES = 100;
const STEPS = 8;
/** Records, each with times of its own, so that nothing is kept from one to the next. */
const RECORDS = 15;
const BETWEEN = 20;

/**
 * How many times the time of its second visit Choose takes on the first visit after an import, once what the import set
 * going is done. Processor time, best of so many records: a visit takes a few milliseconds.
 */
export async function chooseAfterImportRatio(): Promise<{ firstMs: number; secondMs: number; ratio: number }> {
  let [firstMs, secondMs] = [Infinity, Infinity];
  let before = await imported(0);
  for (let seed = 1; seed <= RECORDS; seed += 1) {
    const store = await imported(seed);
    await chooseAhead(store, 'phaco');
    // Another record is visited between, often enough that the engine has swept and compiled what the import left it, and
    // that neither visit finds this record in the processor's cache.
    for (let time = 0; time < BETWEEN; time += 1) await visit(before);
    firstMs = Math.min(firstMs, await visit(store));
    for (let time = 0; time < BETWEEN; time += 1) await visit(before);
    secondMs = Math.min(secondMs, await visit(store));
    before = store;
  }
  return { firstMs, secondMs, ratio: firstMs / secondMs };
}

async function visit(store: Store): Promise<number> {
  const from = process.cpuUsage();
  await readChoose(await readRecord(store), new URLSearchParams());
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
}

async function imported(seed: number) {
  const { steps } = itemAt(loadProcedures(), 0);
  const store = await openMemoryStore();
  const made = recordOf({ cases: CASES, usual: Array.from({ length: STEPS }, (_, at) => 20 + 15 * at) }, seed);
  const cases = made.map(({ stretches }, at) =>
    aNewCase(`${seed}-${at + 1}`, at + 2, {
      stretches: stretches.map((each, step) => ({ ...each, stepId: itemAt(steps, step).id })),
    }),
  );
  const held = await store.holdImport({ heldAt: now, fileName: 'made-up.csv', text: `${seed}`, choices: {} });
  await store.recordImport(held, aBatch({ cases }), `hash ${seed}`, now);
  return store;
}
