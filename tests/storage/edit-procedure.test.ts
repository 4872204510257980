import { describe, expect, it } from 'vitest';
import { loadProcedures } from '../../src/lib/server/content';
import { dropProcedure, keepProcedure, openProcedure, undoProcedure } from '../../src/lib/server/edit-procedure';
import { proceduresOf } from '../../src/lib/server/procedures';
import { openMemoryStore } from '../../src/lib/server/storage';

const phaco = loadProcedures().find(({ id }) => id === 'phaco')!;
const renamed = { ...phaco, name: 'My phaco' };

describe('changing a procedure', () => {
  it('keeps an edit in place of the shipped one, and how it was for one undo', async () => {
    const store = await openMemoryStore();
    await keepProcedure(store, phaco, renamed);
    expect((await proceduresOf(store)).map(({ name }) => name)).toContain('My phaco');
    expect((await openProcedure(store, 'phaco'))?.shipped).toEqual(phaco);
    expect(await undoProcedure(store, 'phaco')).toEqual(phaco);
    expect(await store.procedures()).toEqual([]);
    expect(await undoProcedure(store, 'phaco')).toBeNull();
  });
  it('is no edit any more once it says what is shipped', async () => {
    const store = await openMemoryStore();
    await keepProcedure(store, phaco, renamed);
    await keepProcedure(store, renamed, { ...phaco });
    expect(await store.procedures()).toEqual([]);
    expect(await undoProcedure(store, 'phaco')).toEqual(renamed);
    expect(await store.procedures()).toEqual([renamed]);
  });
  it('brings a removed procedure of one’s own back', async () => {
    const store = await openMemoryStore();
    const graft = { ...phaco, id: 'graft', name: 'Graft', origin: 'own' as const };
    await keepProcedure(store, null, graft);
    await dropProcedure(store, graft);
    expect(await store.procedures()).toEqual([]);
    await undoProcedure(store, 'graft');
    expect(await store.procedures()).toEqual([graft]);
  });
  it('knows no procedure by another id', async () => {
    expect(await openProcedure(await openMemoryStore(), 'unknown')).toBeNull();
  });
});
