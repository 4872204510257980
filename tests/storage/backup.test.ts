import { describe, expect, it } from 'vitest';
import { backupSchema } from '../../src/lib/server/backup';
import { openStore } from '../../src/lib/server/storage';
import { schemaVersion } from '../../src/lib/server/storage/migrations';
import { backupText, readText, textBefore } from './backup-text';
import { asBefore11, asBefore4 } from './earlier/names';
import { aCase, aWholeRecord, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

const left = 'Left out: the timing is unreliable (times not seen)';
const again = 'Counted again; it had been left out: the timing is unreliable';
const changed = (over: object) => textBefore({ ...aWholeRecord(), ...over });
const problem = async (text: string | Uint8Array, piece?: number) => {
  const read = await readText(text, piece);
  return 'problem' in read ? read.problem : null;
};

/** With all that JSON has its own signs for, and letters of two, three and four bytes. */
const odd = 'edge {held}, "again" \\ at [3]:\nØ 縫 𝄞 </script>,';
const withOddText = () => {
  const whole = aWholeRecord();
  return { ...whole, reflections: whole.reflections.map((each) => ({ ...each, saw: odd, tags: [']', '{', '"'] })) };
};

describe('a full backup', () => {
  it('is written with the shape it is in, and reads as what it was made of, wherever it is cut on the way', async () => {
    const text = backupText(withOddText());
    expect(backupSchema.parse(JSON.parse(text)).schemaVersion).toBe(schemaVersion);
    for (const piece of [1, 7, 64, 1e6])
      expect(await readText(text, piece)).toEqual({ everything: withOddText(), missing: [] });
  });

  it('of the format before is read too, in whatever layout', async () => {
    const before = JSON.parse(textBefore(withOddText()));
    for (const layout of [undefined, 1, 2, '\t'])
      expect(await readText(`\uFEFF${JSON.stringify(before, null, layout)}`, 50)).toEqual({
        everything: withOddText(),
        missing: [],
      });
  });

  it('of the first shape, which bore no number, is led to the shape of today', async () => {
    const one = {
      ...aCase('A', { sequence: 1 }),
      id: 'case-1',
      version: 3,
      history: [left, again].map((what) => ({ at: now, what })),
    };
    const results = aWholeRecord().results.map(asBefore11);
    const shape = { schemaVersion: undefined, cases: [one], reflections: [], results };
    const first = asBefore4(JSON.parse(changed(shape)));
    const read = await readText(JSON.stringify(first));
    expect('everything' in read && read.everything.cases[0]).toEqual({ ...one, timesSeenWhileLeftOut: true });
    const today = await readText(changed({ cases: [one], reflections: [] }));
    expect('everything' in today && today.everything.cases[0]).toEqual(one);
  });

  it('of a later version, damaged or of another kind is refused with what to do', async () => {
    expect(await problem(changed({ schemaVersion: schemaVersion + 1 }))).toContain('later version of this program');
    expect(await problem(backupText(aWholeRecord()).slice(0, 200))).toContain('incomplete');
    expect(await problem(changed({ cases: [{ id: 'case-1' }] }))).toContain('damaged at cases.0');
    expect(await problem(changed({ format: 'something' }))).toContain('it says it is something');
    for (const text of ['[]', 'null', '7', '{}']) expect(await problem(text)).toContain('not a backup');
    expect(await problem(`${backupText(aWholeRecord())}{}`)).toContain('after its end');
    expect(await problem('{"cases":[{"id":"case-1"},{"id"}]}')).toContain('damaged at cases.1');
    expect(await problem('{"cases":[],"cases":[]}')).toContain('stands there twice');
    expect(await problem(Buffer.from('{"format":"next-twenty/everything/1\xff"}', 'latin1'))).toContain('damaged');
  });

  it('is refused wherever it is cut off', async () => {
    const text = backupText(aWholeRecord());
    for (let length = 0; length < text.trimEnd().length; length += 13)
      expect(await problem(text.slice(0, length)), `the first ${length}`).toMatch(/incomplete|not a backup/);
    expect(await problem(text.slice(0, text.indexOf('"goals"')))).toContain('after 2 of its cases');
  });

  it('is refused where one letter, one number or one record was altered', async () => {
    const text = backupText(aWholeRecord());
    for (const [was, is] of [
      ['"code":"F1"', '"code":"F9"'],
      ['"seconds":83', '"seconds":38'],
      ['The edge stayed', 'The edge strayed'],
      ['"inTraining":true', '"inTraining":null'],
      [/\n\{"label":"Two colleagues.*\}/, ''],
      [/"sha256":"./, '"sha256":"g'],
    ] as const) {
      const altered = text.replace(was, is);
      expect(altered).not.toBe(text);
      expect(await problem(altered), String(was)).toContain('altered');
    }
  });

  it('of thousands of cases comes back whole, with others answered meanwhile, and is there after the next start', async () => {
    const MANY = 5000;
    const many = {
      ...aWholeRecord(),
      cases: Array.from({ length: MANY }, (_, at) => ({
        ...aCase(`K${at + 1}`, { listId: 'list-1', sequence: at + 1 }),
        id: `case-${at + 1}`,
        version: 1,
        history: [],
      })),
    };
    const folder = await freshFolder();
    const store = await openStore(folder, now);
    let [turns, going] = [0, true];
    const others = (async () => {
      for (; going; turns += 1) await new Promise((turn) => setImmediate(turn));
    })();
    const read = await readText(backupText(many), 64 * 1024);
    if ('problem' in read) throw new Error(read.problem);
    await store.restoreEverything(read.everything);
    going = false;
    await others;
    expect(turns).toBeGreaterThan(MANY / 100);
    await store.close();
    const opened = await openIn(folder);
    expect(await readText(backupText(await opened.everything()), 64 * 1024)).toEqual({ everything: many, missing: [] });
  });
});
