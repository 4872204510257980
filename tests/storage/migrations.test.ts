import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { emptyProfile } from '../../src/lib/model';
import { migrations, schemaVersion } from '../../src/lib/server/storage/migrations';
import { migrate } from '../../src/lib/server/storage/migrations/migrate';
import { openDiskStore } from '../../src/lib/server/storage/open-disk';
import { asBefore4 } from './earlier/names';
import { aCase, aWholeRecord, later, now } from '../made-up/stored';
import { freshFolder } from './stores';

/**
 * These two are made up, in the manner of real ones, and run through the same opening of a real folder: version 1 of the
 * profile is read as if it were version 3, after `training` became `inTraining` and backups got a term.
 */
const madeUp = {
  schemaVersion: 3,
  migrations: [
    {
      to: 2,
      documents: {
        profile: ({ profile }: Record<string, unknown>) => {
          const { training, ...rest } = profile as Record<string, unknown>;
          return { profile: { ...rest, inTraining: training } };
        },
      },
    },
    {
      to: 3,
      documents: {
        profile: ({ profile }: Record<string, unknown>) => ({ profile: { ...(profile as object), backupMonths: 6 } }),
      },
    },
  ],
};

const { inTraining: _, backupMonths: __, ...others } = emptyProfile;
const oldProfile = JSON.stringify({ schemaVersion: 1, profile: { ...others, training: true } });

async function oldFolder() {
  const folder = await freshFolder();
  await mkdir(join(folder, 'cases'));
  await writeFile(join(folder, 'profile.json'), oldProfile);
  await writeFile(join(folder, 'cases', '1.json'), '{"schemaVersion":2,"next":5,"records":[]}');
  await writeFile(join(folder, 'contents.json'), '{"schemaVersion":1,"documents":["cases/1","profile"]}');
  return folder;
}

describe('a file of an older shape', () => {
  it('is read through every migration on the way, and left as it is until it is next saved', async () => {
    const folder = await oldFolder();
    const store = await openDiskStore(folder, now, madeUp);
    expect(await store.profile()).toEqual({ ...emptyProfile, inTraining: true, backupMonths: 6 });
    expect(await readFile(join(folder, 'profile.json'), 'utf8')).toBe(oldProfile);
    await store.changeProfile((profile) => ({ ...profile, largeType: true }));
    await store.close();
    expect(JSON.parse(await readFile(join(folder, 'profile.json'), 'utf8'))).toEqual({
      schemaVersion: 3,
      profile: { ...emptyProfile, inTraining: true, backupMonths: 6, largeType: true },
    });
  });

  it('that no migration leads from is unreadable, not guessed at', async () => {
    const folder = await oldFolder();
    const store = await openDiskStore(folder, now, { ...madeUp, migrations: madeUp.migrations.slice(1) });
    await expect(store.profile()).rejects.toMatchObject({ code: 'unreadable' });
    await store.close();
    expect(await readFile(join(folder, 'profile.json'), 'utf8')).toBe(oldProfile);
  });

  it('passes migrations that do not concern it', () => {
    expect(migrate({ next: 1, records: [] }, 'lists', 1, 3, madeUp.migrations)).toEqual({ next: 1, records: [] });
  });
});

describe('goals and lists of version 1, before it was counted what is erased', () => {
  it('are read without a count, and count from the next erased case on', async () => {
    const folder = await freshFolder();
    const put = (name: string, document: object) =>
      writeFile(join(folder, `${name}.json`), JSON.stringify({ schemaVersion: 1, ...asBefore4(document) }));
    const { cases, goals, lists } = aWholeRecord();
    await mkdir(join(folder, 'cases'));
    await put('cases/1', { next: 3, records: cases.map((one) => ({ ...one, events: [] })) });
    await put('goals', { next: 2, records: goals });
    await put('lists', { next: 2, records: lists });
    await put('contents', { documents: ['cases/1', 'goals', 'lists'] });
    expect(JSON.stringify([goals, lists])).not.toContain('erased');

    const store = await openDiskStore(folder, now);
    expect(await store.goals()).toEqual(goals);
    expect(await store.lists()).toEqual(lists);
    await store.eraseCase('case-2', now, [{ goalId: 'goal-1', part: 'baseline' }]);
    await store.close();

    const again = await openDiskStore(folder, now);
    const erased = { cases: 1, answered: 1 };
    expect(await again.goals()).toEqual([
      { ...goals[0], erased: { baseline: erased, window: { cases: 0, answered: 0 } } },
    ]);
    expect(await again.lists()).toEqual([{ ...lists[0], erased }]);
    await again.close();
    // A program of version 1 refuses it as newer, and does not take the new field for damage.
    const old = await openDiskStore(folder, now, { schemaVersion: 1, migrations: [] }).catch((why: unknown) => why);
    expect(old).toMatchObject({ code: 'newer' });
  });
});

describe('a record of version 4, before things could be known only where they were asked', () => {
  it('is read as it was; with the new values a program of then refuses it as newer', async () => {
    const folder = await freshFolder();
    const put = (name: string, document: object) =>
      writeFile(join(folder, `${name}.json`), JSON.stringify({ schemaVersion: 4, ...document }));
    const { cases, goals, lists } = aWholeRecord();
    const event = { kind: 'iris-prolapse', stepId: null, serious: false, nearMiss: false, reviewed: null };
    const before = cases.map((one) => ({ ...one, events: [{ ...event, noticed: 'during' as const }] }));
    await mkdir(join(folder, 'cases'));
    await put('cases/1', { next: 3, records: before });
    await put('goals', { next: 2, records: goals });
    await put('lists', { next: 2, records: lists });
    await put('contents', { documents: ['cases/1', 'goals', 'lists'] });
    const store = await openDiskStore(folder, now);
    expect(await store.cases()).toEqual(before);
    expect(await store.goals()).toEqual(goals);
    const decision = { at: now, kind: 'go-on' as const, reason: 'Looked at it.', eventsAtStep: 1 };
    const decided = await store.changeGoal('goal-1', (goal) => ({ ...goal, decisions: [decision] }));
    await store.close();
    const again = await openDiskStore(folder, now);
    expect((await again.goals())[0]).toEqual(decided);
    await again.close();
    const old = await openDiskStore(folder, now, { schemaVersion: 4, migrations: migrations.slice(0, 3) });
    await expect(old.goals()).rejects.toMatchObject({ code: 'newer' });
    await old.close();
  });
});

describe('the shipped migrations', () => {
  it('lead from version 1 to this one, a step at a time', () => {
    expect(migrations.map(({ to }) => to)).toEqual(Array.from({ length: schemaVersion - 1 }, (__, index) => index + 2));
  });
});

describe('from version 1', () => {
  const reviewed = { at: now, text: 'A wider opening.' };
  const event = {
    kind: 'iris-prolapse',
    stepId: null,
    serious: true,
    nearMiss: false,
    noticed: 'during',
    reviewed,
  } as const;
  const old = (n: number, what: string[], over: object = {}) => ({
    ...aCase(`A${n}`, { sequence: n, events: [event] }),
    id: `case-${n}`,
    version: what.length + 1,
    history: what.map((each) => ({ at: now, what: each })),
    ...over,
  });
  const left = 'Left out: the timing is unreliable (times not seen)';
  const again = 'Counted again; it had been left out: the timing is unreliable';
  const records = [
    old(1, []),
    old(2, [left, again]),
    old(3, [left, `Undone: ${left}`]),
    old(4, [left], { leftOut: { reason: 'timing-unreliable', timesSeen: false, at: now } }),
    old(5, [left, again], { stretches: [] }),
  ];

  async function version1() {
    const folder = await freshFolder();
    await mkdir(join(folder, 'cases'));
    await mkdir(join(folder, 'imports'));
    const imported = {
      id: 'import-1',
      fileName: 'times.csv',
      at: now,
      textHash: 'x',
      added: [],
      replaced: ['case-2'],
      listsAdded: [],
      referencesAdded: [],
      undone: false,
    };
    const write = (name: string, document: object) =>
      writeFile(join(folder, `${name}.json`), JSON.stringify({ schemaVersion: 1, ...asBefore4(document) }));
    await write('cases/1', { next: 6, records });
    await write('imports/import-1', { state: 'recorded', record: imported, before: [records[1]] });
    await write('ledger', { next: { import: 2, reference: 1 }, erasedCases: 0, invented: null });
    await write('contents', { documents: ['cases/1', 'imports/import-1', 'ledger'] });
    return folder;
  }

  it('a case that counts again keeps that its times stood open while it was left out', async () => {
    const store = await openDiskStore(await version1(), now);
    const cases = await store.cases();
    expect(cases.map(({ id, timesSeenWhileLeftOut }) => [id, timesSeenWhileLeftOut])).toEqual([
      ['case-1', undefined],
      ['case-2', true],
      ['case-3', true],
      ['case-4', undefined],
      ['case-5', undefined],
    ]);
    for (const { events } of cases) expect(events?.[0]?.reviewed).toEqual(reviewed);
    await store.undoImport('import-1', later);
    expect(await store.caseById('case-2')).toMatchObject({ timesSeenWhileLeftOut: true, version: 4 });
    await store.close();
  });

  it('nothing else of it changes', async () => {
    const store = await openDiskStore(await version1(), now);
    const plain = (await store.cases()).map(({ timesSeenWhileLeftOut: _mark, ...one }) => one);
    expect(plain).toEqual(records);
    await store.close();
  });
});
