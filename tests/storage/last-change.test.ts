import { expect, it } from 'vitest';
import { changeCases, lastUndo } from '../../src/lib/server/last-change';
import { readRecord } from '../../src/lib/server/record';
import { openStore } from '../../src/lib/server/storage';
import { aCase, later, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

it('the change made last can still be undone after the program was started again', async () => {
  const folder = await freshFolder();
  const first = await openStore(folder, now);
  const one = await first.recordCase(aCase('A'));
  await changeCases(first, [{ case: { ...one, position: 7 }, what: 'Place: none → 7' }], now);
  await first.close();

  const store = await openIn(folder);
  const undo = await lastUndo(store, await readRecord(store), [one.id], later);
  if (undo?.kind !== 'offered') throw new Error('nothing is offered');
  await changeCases(store, undo.back, later);
  expect(await store.caseById(one.id)).toMatchObject({ position: null, version: 3 });
});
