import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { backupSchema } from '../../src/lib/server/backup';
import { openStore } from '../../src/lib/server/storage';
import { checkReadable } from '../../src/lib/server/storage/readable';
import { backupText, readText, textBefore } from './backup-text';
import { aCase, aList, aWholeRecord, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

const whole = aWholeRecord();
const with1 = (over: object) => ({ ...whole, ...over });
const [one, two] = whole.cases;
if (!one || !two) throw new Error('the whole record has two cases');

/** Records that were accepted once, and could not be read, or not be shown, after the next start. */
const unreadable: [string, object][] = [
  ['a case with the number 0', with1({ cases: [{ ...one, id: 'case-0' }, two] })],
  ['a case with 26 digits', with1({ cases: [{ ...one, id: `case-${'9'.repeat(26)}` }, two] })],
  ['a case beyond exact numbers', with1({ cases: [{ ...one, id: 'case-9007199254740993' }, two] })],
  ['a case called a list', with1({ cases: [{ ...one, id: 'list-7' }, two] })],
  ['a reference set called set-1', with1({ references: whole.references.map((set) => ({ ...set, id: 'set-1' })) })],
  [
    'a list of more operations than there can be',
    with1({ lists: whole.lists.map((list) => ({ ...list, operated: 9007199254740991 })) }),
  ],
  ['a place beyond every list', with1({ cases: [{ ...one, position: 1e15 }, two] })],
  ['a sequence beyond all cases', with1({ cases: [{ ...one, sequence: 1e300 }, two] })],
  [
    'a list in the year 9999',
    with1({ lists: whole.lists.map((list) => ({ ...list, when: { kind: 'date', date: '9999-12-31' } })) }),
  ],
];

describe('a record that could not be read again', () => {
  it.each(unreadable)('is refused as a backup, by the store and by the published schema: %s', async (_, everything) => {
    const text = backupText(everything as typeof whole);
    expect(await readText(text)).toHaveProperty('problem');
    expect(await readText(textBefore(everything))).toHaveProperty('problem');
    const store = await openIn(await freshFolder());
    await expect(store.restoreEverything(everything as typeof whole)).rejects.toMatchObject({ code: 'invalid' });
    expect(await store.cases()).toEqual([]);
    const published = z.fromJSONSchema(
      z.toJSONSchema(backupSchema, { io: 'input' }) as Parameters<typeof z.fromJSONSchema>[0],
    );
    expect(published.safeParse(JSON.parse(text)).success).toBe(false);
    expect(published.safeParse(JSON.parse(backupText(whole))).success).toBe(true);
  });

  it('is refused by every verb before it is acknowledged', async () => {
    const folder = await freshFolder();
    const store = await openStore(folder, now);
    await expect(store.recordList({ ...aList('2026-03-02'), operated: 1e9 })).rejects.toMatchObject({
      code: 'invalid',
    });
    await expect(store.recordCase(aCase('A', { sequence: Number.POSITIVE_INFINITY }))).rejects.toMatchObject({
      code: 'invalid',
    });
    await expect(store.saveDraft('key', 7 as unknown as string)).rejects.toMatchObject({ code: 'invalid' });
    await store.close();
    const again = await openIn(folder);
    expect(await again.everything()).toMatchObject({ cases: [], lists: [] });
  });

  it('is held against the schema of its document as a whole: an id twice, or one that would be given again', () => {
    expect(() => checkReadable('cases/1', { next: 3, records: [one, { ...one }] })).toThrow(/twice/);
    expect(() => checkReadable('cases/1', { next: 1, records: [one] })).toThrow(/given again/);
    expect(() => checkReadable('profile', { profile: { largeType: 'yes' } })).toThrow(/procedureId/);
    expect(() => checkReadable('cases/1', { next: 3, records: [one, two] })).not.toThrow();
  });
});
