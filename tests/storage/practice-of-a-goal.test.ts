import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Goal } from '../../src/lib/model';
import { openMemoryStore } from '../../src/lib/server/storage';
import { migrations, schemaVersion } from '../../src/lib/server/storage/migrations';
import { openDiskStore } from '../../src/lib/server/storage/open-disk';
import { asBefore4 } from './earlier/names';
import { backupText, readText } from './backup-text';
import { aWholeRecord, later, now } from '../made-up/stored';
import { freshFolder } from './stores';

/** The version before goals carried what was practised, and before they carried the day of agreement. */
const BEFORE = 5;
const BEFORE_AGREED = 7;

const practised: Pick<Goal, 'drillLog' | 'mentorReviews'> = {
  drillLog: [{ drillId: 'rhexis-drill-film', at: now }],
  mentorReviews: [
    {
      at: now,
      caseIds: ['case-1', 'case-2'],
      chosen: 'latest',
      learner: { at: now, ratings: [{ checkpointId: 'regrasp', anchor: 'each-time' }], saw: 'The flap lay flat.' },
      mentor: { at: later, ratings: [{ checkpointId: 'regrasp', anchor: 'with-correction' }], saw: '' },
      typedAgain: true,
    },
  ],
};

/** A folder with one goal, as a program of that version left it. */
async function folderOf(version: number) {
  const folder = await freshFolder();
  const { goals } = aWholeRecord();
  const document = { next: 2, records: goals };
  const text = { schemaVersion: version, ...(version < 4 ? asBefore4(document) : document) };
  await writeFile(join(folder, 'goals.json'), JSON.stringify(text));
  await writeFile(join(folder, 'contents.json'), JSON.stringify({ schemaVersion: version, documents: ['goals'] }));
  return { folder, goals };
}

describe('what was practised, kept with a goal', () => {
  it.each(Array.from({ length: BEFORE }, (_, index) => index + 1))(
    'a goal of version %i is read without it, takes it, and keeps it',
    async (version) => {
      const { folder, goals } = await folderOf(version);
      const store = await openDiskStore(folder, now);
      expect(await store.goals()).toEqual(goals);
      expect(Object.keys((await store.goals())[0] ?? {})).not.toContain('drillLog');
      await store.changeGoal('goal-1', (goal) => ({ ...goal, ...practised }));
      await store.close();
      const again = await openDiskStore(folder, now);
      expect(await again.goals()).toEqual([{ ...goals[0], ...practised }]);
      await again.close();
    },
  );

  it('a program of the version before refuses such a goal as newer, and takes it for no damage', async () => {
    const { folder } = await folderOf(BEFORE);
    const store = await openDiskStore(folder, now);
    await store.changeGoal('goal-1', (goal) => ({ ...goal, ...practised }));
    await store.close();
    const old = { schemaVersion: BEFORE, migrations: migrations.slice(0, BEFORE - 1) };
    const opened = await openDiskStore(folder, now, old).catch((why: unknown) => why);
    const why =
      opened instanceof Error
        ? opened
        : await (opened as { goals(): Promise<unknown> }).goals().catch((e: unknown) => e);
    expect(why).toMatchObject({ code: 'newer' });
  });

  it('goes into a full backup and comes back from it', async () => {
    const record = aWholeRecord();
    const everything = { ...record, goals: record.goals.map((goal) => ({ ...goal, ...practised })) };
    const read = await readText(backupText(everything));
    if ('problem' in read) throw new Error(read.problem);
    const store = await openMemoryStore();
    await store.restoreEverything(read.everything);
    expect((await store.everything()).goals).toEqual(everything.goals);
  });

  it('is missing, not made up, in a backup of version 3', async () => {
    const read = await readText(await readFile(new URL('./earlier/backup-3.json', import.meta.url), 'utf8'));
    if ('problem' in read) throw new Error(read.problem);
    expect(read.everything.goals.length).toBeGreaterThan(0);
    for (const goal of read.everything.goals) {
      expect(goal.drillLog).toBeUndefined();
      expect(goal.mentorReviews).toBeUndefined();
    }
  });

  it.each([
    ['an anchor that is none of the three', { anchor: 'good' }],
    ['a total', { anchor: 'each-time', total: 3 }],
  ])('a backup with %s is refused with its place', async (_, rating) => {
    const record = aWholeRecord();
    const [review] = practised.mentorReviews ?? [];
    const wrong = {
      ...record,
      schemaVersion,
      goals: [
        {
          ...record.goals[0],
          mentorReviews: [
            { ...review, learner: { ...review?.learner, ratings: [{ checkpointId: 'regrasp', ...rating }] } },
          ],
        },
      ],
    };
    const read = await readText(JSON.stringify(wrong));
    expect('problem' in read && read.problem).toContain('goals.0.mentorReviews.0.learner.ratings.0');
  });
});

describe('the day a draft was agreed', () => {
  it('is missing from a goal of the version before, is kept once it is stored, and goes through a full backup', async () => {
    const { folder, goals } = await folderOf(BEFORE_AGREED);
    const store = await openDiskStore(folder, now);
    expect((await store.goals())[0]?.agreedAt).toBeUndefined();
    await store.changeGoal('goal-1', (goal) => ({ ...goal, agreedAt: later }));
    const read = await readText(backupText(await store.everything()));
    if ('problem' in read) throw new Error(read.problem);
    expect(read.everything.goals).toEqual([{ ...goals[0], agreedAt: later }]);
    await store.close();
    const again = await openDiskStore(folder, now);
    expect(await again.goals()).toEqual([{ ...goals[0], agreedAt: later }]);
    await again.close();
  });
});
