import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { emptyProfile } from '../../src/lib/model';
import { migrations, schemaVersion } from '../../src/lib/server/storage/migrations';
import { migrate } from '../../src/lib/server/storage/migrations/migrate';
import { openDiskStore } from '../../src/lib/server/storage/open-disk';
import { now } from './records';
import { freshFolder } from './stores';

/**
 * Version 1 is the first there was, so no shipped migration exists to be tried. These two are made up, in the manner of
 * real ones, and run through the same opening of a real folder: version 1 of the profile is read as if it were version 3,
 * after `training` became `inTraining` and backups got a term.
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
    await store.saveProfile({ ...(await store.profile()), largeType: true });
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

describe('the shipped migrations', () => {
  it('lead from version 1 to this one, a step at a time', () => {
    expect(migrations.map(({ to }) => to)).toEqual(Array.from({ length: schemaVersion - 1 }, (__, index) => index + 2));
  });
});
