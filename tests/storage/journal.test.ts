import { readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { schemaVersion } from '../../src/lib/server/storage/migrations';
import { openStore } from '../../src/lib/server/storage';
import { writeJournal } from '../../src/lib/server/storage/disk/journal';
import { aCase, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

/** A folder as a crash leaves it: before a change to several files, and a journal of that change. */
async function brokenOff() {
  const folder = await freshFolder();
  const store = await openStore(folder, now);
  await store.recordCase(aCase('A'));
  const text = (name: string) => readFile(join(folder, `${name}.json`), 'utf8');
  const [casesBefore, contentsBefore] = [await text('cases/1'), await text('contents')];
  await store.recordCase(aCase('B', { sequence: 2 }));
  await store.saveDraft('reflect', 'kept');
  await store.close();
  const after = new Map<'cases/1' | 'drafts' | 'contents', string | null>();
  for (const name of ['cases/1', 'drafts', 'contents'] as const) after.set(name, await text(name));
  await writeFile(join(folder, 'cases', '1.json'), casesBefore);
  await writeFile(join(folder, 'contents.json'), contentsBefore);
  await rm(join(folder, 'drafts.json'));
  await writeJournal(folder, after, schemaVersion);
  return { folder, journal: join(folder, 'journal.json') };
}

describe('a change to several files broken off by a crash', () => {
  it('is done again from a whole journal, which then goes', async () => {
    const { folder } = await brokenOff();
    const store = await openIn(folder);
    expect((await store.cases()).map(({ code }) => code)).toEqual(['A', 'B']);
    expect(await store.draft('reflect')).toBe('kept');
    expect(await readdir(folder)).not.toContainEqual(expect.stringContaining('journal'));
  });

  it('is done again when some files had got their new text already', async () => {
    const { folder, journal } = await brokenOff();
    const { files } = JSON.parse(await readFile(journal, 'utf8'));
    await writeFile(join(folder, 'cases', '1.json'), files['cases/1']);
    const store = await openIn(folder);
    expect([(await store.cases()).length, await store.draft('reflect')]).toEqual([2, 'kept']);
  });

  const broken: [string, (text: string) => string][] = [
    ['torn', (text) => text.slice(0, text.length / 2)],
    ['empty', () => ''],
    ['altered', (text) => text.replace('kept', 'lost')],
    ['naming a file that is none of ours', (text) => text.replace('"drafts"', '"../drafts"')],
  ];
  it.each(broken)(
    'never was acknowledged when the journal is %s: put aside, and nothing changes',
    async (_, change) => {
      const { folder, journal } = await brokenOff();
      const bad = change(await readFile(journal, 'utf8'));
      await writeFile(journal, bad);
      const store = await openIn(folder);
      expect([(await store.cases()).length, await store.draft('reflect')]).toEqual([1, null]);
      const aside = (await readdir(folder)).filter((name) => name.startsWith('journal.json'));
      expect(aside).toEqual([expect.stringMatching(/^journal\.json\.broken-/)]);
      expect(await readFile(join(folder, aside[0] ?? ''), 'utf8')).toBe(bad);
    },
  );

  it('waits for the version that wrote it', async () => {
    const { folder, journal } = await brokenOff();
    const text = await readFile(journal, 'utf8');
    const newer = text.replace(
      `"schemaVersion":${schemaVersion},"hash"`,
      `"schemaVersion":${schemaVersion + 1},"hash"`,
    );
    await writeFile(journal, newer);
    await expect(openStore(folder, now)).rejects.toMatchObject({ code: 'newer' });
    expect(await readFile(journal, 'utf8')).toBe(newer);
    expect(await readdir(folder)).not.toContain('owner.lock');
  });
});
