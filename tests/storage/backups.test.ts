import { readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Store } from '../../src/lib/server/storage';
import { aBatch, aCase, aGoal, aNewCase, aReflection, aWholeRecord, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

/** A disk that refuses to put a new file in the place of one whose name ends so. */
const disk = vi.hoisted(() => ({ refusedName: '' }));

vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof import('node:fs/promises')>();
  return {
    ...real,
    rename: async (from: string, to: string) => {
      if (disk.refusedName && to.endsWith(disk.refusedName))
        throw Object.assign(new Error('EIO: refused by the test'), { code: 'EIO' });
      return real.rename(from, to);
    },
  };
});

beforeEach(() => vi.useFakeTimers({ toFake: ['Date'], now: Date.parse('2026-11-25T10:00:00Z') }));
afterEach(() => vi.useRealTimers());
const minute = () => vi.setSystemTime(Date.now() + 60_000);

const after = async <Answer>(change: Promise<Answer>): Promise<Answer> => {
  const answer = await change;
  minute();
  return answer;
};

/** What stands in the record but for versions and histories, which only grow. */
const shown = async (store: Store) =>
  JSON.parse(
    JSON.stringify(await store.everything(), (key, value) => (/^(version|history)$/.test(key) ? undefined : value)),
  );

async function threeChanges() {
  const store = await openIn(await freshFolder());
  await after(store.restoreEverything(aWholeRecord()));
  const before = await shown(store);
  const [one] = await store.cases();
  if (!one) throw new Error('no case');
  await after(store.updateCase({ ...one, position: 9 }, 'Place', now));
  const second = await shown(store);
  await after(store.recordCase(aCase('NEW', { sequence: 99 })));
  await after(store.changeProfile((profile) => ({ ...profile, largeType: !profile.largeType })));
  return { store, before, second };
}

const momentsOf = async (store: Store) => (await store.backups()).map(({ at }) => at);

describe('backups of a record', () => {
  it('say what was changed at each moment, and what differs since', async () => {
    const { store } = await threeChanges();
    const moments = await store.backups();
    expect(moments.map(({ at, holds }) => [at.slice(11, 16), holds.join()])).toEqual([
      ['10:03', 'the settings'],
      ['10:02', 'cases 1 to 1,000, in order of arrival'],
      ['10:01', 'cases 1 to 1,000, in order of arrival'],
    ]);
    const since = await store.changedSince(moments[2]?.at ?? '');
    expect(since).toEqual([
      { name: 'profile', holds: 'the settings', since: { added: 0, changed: 1, removed: 0 } },
      {
        name: 'cases/1',
        holds: 'cases 1 to 1,000, in order of arrival',
        since: { added: 1, changed: 1, removed: 0 },
      },
    ]);
    expect(await store.changedSince('2026-11-25T10:02:30.000Z')).toBeNull();
  });

  it('bring everything back as it stood, and that is undone the same way, also after the next start', async () => {
    const { store, before, second } = await threeChanges();
    const last = await shown(store);
    const moments = await momentsOf(store);
    const undo = await after(store.restoreBackup(moments[1] ?? '', null, now));
    expect(await shown(store)).toEqual(second);
    await after(store.restoreBackup(moments[2] ?? '', null, now));
    expect(await shown(store)).toEqual(before);
    await store.close();
    const again = await openIn(store.place);
    expect(await shown(again)).toEqual(before);
    await after(again.restoreBackup(undo ?? '', null, now));
    expect(await shown(again)).toEqual(last);
    expect((await again.cases()).at(-1)?.history.at(-1)?.what).toMatch(
      /^Brought back as it stood before 2026-11-25, 10:/,
    );
    const { id } = await again.recordCase(aCase('LATER', { sequence: 100 }));
    expect(id).toBe('case-4');
    expect(await again.restoreBackup((await momentsOf(again))[0] ?? '', 'profile', now)).toBeNull();
  });

  it('bring back one file, unless it would not fit the others', async () => {
    const { store } = await threeChanges();
    const moments = await momentsOf(store);
    await after(store.restoreBackup(moments[1] ?? '', 'cases/1', now));
    expect((await store.cases()).map(({ code }) => code)).not.toContain('NEW');
    const list = await after(store.recordList({ ...(await store.lists())[0]!, label: 'later' }));
    await after(store.recordCase(aCase('ON IT', { listId: list.id, sequence: 5 })));
    const before = (await store.backups()).find(({ holds }) => holds.join().includes('list'))?.at ?? '';
    await expect(store.restoreBackup(before, 'lists', now)).rejects.toThrow(/would not fit the others .*no list/);
    expect(await store.lists()).toContainEqual(list);
    await store.restoreBackup(before, null, now);
    expect(await store.lists()).not.toContainEqual(list);
  });

  it('never give an old page the right to write over what was stored since', async () => {
    const { store } = await threeChanges();
    const [stale] = await store.cases();
    await after(store.restoreBackup((await momentsOf(store))[2] ?? '', null, now));
    const [back] = await store.cases();
    await expect(store.updateCase({ ...stale!, position: 3 }, 'Place', now)).rejects.toThrow('changed elsewhere');
    expect(back?.version).toBeGreaterThan(stale?.version ?? 0);
  });

  it('leave a case that is kept as it is alone', async () => {
    const { store } = await threeChanges();
    const [one] = await store.cases();
    await after(store.updateCase({ ...one!, keptAsItIs: { since: now, why: 'a claim' } }, 'Kept', now));
    const moments = await momentsOf(store);
    await expect(store.restoreBackup(moments.at(-1) ?? '', null, now)).rejects.toMatchObject({ code: 'kept-as-it-is' });
    await store.restoreBackup(moments[1] ?? '', null, now); // that case was the same then
    expect((await store.cases())[0]?.keptAsItIs?.why).toBe('a claim');
  });

  it('take no drafts and no file that waits, and undo an import that came after', async () => {
    const { store } = await threeChanges();
    await after(store.saveDraft('reflect', 'one'));
    await after(store.saveDraft('reflect', 'two'));
    const held = await after(store.holdImport({ heldAt: now, fileName: 'a.csv', text: 'secret', choices: {} }));
    await after(store.updateHeldImport({ ...held, choices: { a: 'b' } }));
    vi.setSystemTime(Date.now() + 1000);
    const batch = aBatch({ cases: [aNewCase('FROM FILE', 2)] });
    const moments = await momentsOf(store);
    await after(store.recordImport(held, batch, 'hash', new Date().toISOString()));
    const names = await readdir(join(store.place, 'backups'));
    expect(names.sort()).toEqual(['cases', 'contents', 'ledger', 'profile']);
    await store.restoreBackup(moments[0] ?? '', null, now);
    expect([(await store.imports()).length, await store.draft('reflect')]).toEqual([0, 'two']);
  });

  it('cost no second copy on the disk', async () => {
    const { store } = await threeChanges();
    const path = join(store.place, 'profile.json');
    const { ino } = await stat(path);
    await store.changeProfile((profile) => ({ ...profile, backupMonths: 3 }));
    const [backup] = (await readdir(join(store.place, 'backups', 'profile'))).sort().slice(-1);
    expect((await stat(join(store.place, 'backups', 'profile', backup ?? ''))).ino).toBe(ino);
  });

  it('are thinned out as time goes, and at once where fewer months are kept', async () => {
    const { store } = await threeChanges();
    const edit = () => after(store.changeProfile((profile) => ({ ...profile, largeType: !profile.largeType })));
    for (let day = 0; day < 40; day += 1) {
      for (let one = 0; one < 3; one += 1) await edit();
      vi.setSystemTime(Date.now() + 24 * 3_600_000);
    }
    const files = () => readdir(join(store.place, 'backups', 'profile'));
    const kept = await files();
    expect(kept.length).toBeLessThan(30 + 20 + 2);
    expect(kept.length).toBeGreaterThan(40);
    expect((await momentsOf(store)).length).toBeGreaterThan(30);
  });
});

describe('erasing a case everywhere', () => {
  async function withBackups() {
    const store = await openIn(await freshFolder());
    const erased = await after(store.recordCase(aCase('ERASED')));
    const other = await after(store.recordCase(aCase('OTHER', { sequence: 2 })));
    await after(store.updateCase({ ...erased, position: 2 }, 'Place', now));
    const reflection = await after(store.saveReflection(aReflection([erased.id, other.id])));
    await after(store.updateReflection({ ...reflection, saw: 'more' }));
    await after(store.startGoal(aGoal([erased.id, other.id])));
    return { store, erased, other };
  }

  const filesOf = async (folder: string): Promise<string[]> =>
    (await readdir(folder, { recursive: true, withFileTypes: true }))
      .filter((entry) => entry.isFile() && !entry.name.startsWith('owner.lock'))
      .map((entry) => join(entry.parentPath, entry.name));

  it('reaches every backup, and copies of what could not be read; no going back brings it back', async () => {
    const { store, erased } = await withBackups();
    await writeFile(join(store.place, 'cases', '1.json.unreadable-2026-11-01T00-00-00-000Z'), '{"code":"ERASED"');
    await writeFile(join(store.place, 'drafts.json.unreadable-2026-11-01T00-00-00-000Z'), '{"x"');
    await after(store.eraseCase(erased.id, now));
    for (const path of await filesOf(store.place)) {
      const text = await readFile(path, 'utf8');
      expect(text.includes('ERASED'), path).toBe(false);
      if (!path.includes('goals')) expect(text.includes(`"${erased.id}"`), path).toBe(false);
    }
    expect((await store.setAside()).map((path) => path.slice(store.place.length + 1, -25))).toEqual([
      'drafts.json.unreadable',
    ]);
    for (const at of await momentsOf(store)) {
      await after(store.restoreBackup(at, null, now));
      expect((await store.cases()).map(({ code }) => code)).not.toContain('ERASED');
      expect(await store.erasedCount()).toBe(1);
    }
  });

  it('does so too when a crash came after it was acknowledged', async () => {
    const { store, erased } = await withBackups();
    const complaint = vi.spyOn(console, 'error').mockImplementation(() => {});
    disk.refusedName = 'cases/1.json'; // the journal is whole, and nothing after it is written
    await store.eraseCase(erased.id, now);
    await store.close();
    expect(await readdir(store.place)).toContain('journal.json');
    disk.refusedName = '';
    complaint.mockRestore();
    const again = await openIn(store.place);
    expect((await again.cases()).map(({ code }) => code)).toEqual(['OTHER']);
    for (const path of await filesOf(store.place))
      expect((await readFile(path, 'utf8')).includes('ERASED'), path).toBe(false);
  });
});

describe('a damaged file', () => {
  it.each(['profile', 'lists', 'cases/1', 'reflections/1', 'ledger'])(
    'comes back from its newest good backup: %s',
    async (name) => {
      const { store } = await threeChanges();
      await after(store.recordList({ ...(await store.lists())[0]!, label: 'a later list' }));
      const [reflection] = await store.reflections();
      await after(store.updateReflection({ ...reflection!, saw: 'more' }));
      await after(store.eraseCase('case-3', now));
      await store.close();
      await writeFile(join(store.place, `${name}.json`), 'torn');
      const newest = (await readdir(join(store.place, 'backups', name))).sort();
      if (newest.length > 1) await writeFile(join(store.place, 'backups', name, newest.at(-1) ?? ''), 'torn too');
      const again = await openIn(store.place);
      const found = await again.newestBackup(name);
      expect(found?.at).toBeDefined();
      await again.replaceDamaged(name, 'backup');
      expect(await again.damaged()).toEqual([]);
      await again.recordCase(aCase('MORE', { sequence: 50 }));
      expect(await again.newestBackup('goals')).toBeNull();
    },
  );
});
