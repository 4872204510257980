import { asBefore4 } from './earlier/names';
import { describe, expect, it } from 'vitest';
import { backupSchema, everythingText, readEverything } from '../../src/lib/server/backup';
import { schemaVersion } from '../../src/lib/server/storage/migrations';
import { aCase, aWholeRecord, now } from './records';

const left = 'Left out: the timing is unreliable (times not seen)';
const again = 'Counted again; it had been left out: the timing is unreliable';
const changed = (over: object) => JSON.stringify({ ...JSON.parse(everythingText(aWholeRecord())), ...over });

describe('a full backup', () => {
  it('is written with the shape it is in, and reads as what it was made of', () => {
    const text = everythingText(aWholeRecord());
    expect(backupSchema.parse(JSON.parse(text)).schemaVersion).toBe(schemaVersion);
    expect(readEverything(text)).toEqual({ everything: aWholeRecord() });
  });

  it('of the first shape, which bore no number, is led to the shape of today', () => {
    const one = {
      ...aCase('A', { sequence: 1 }),
      id: 'case-1',
      version: 3,
      history: [left, again].map((what) => ({ at: now, what })),
    };
    const first = asBefore4(JSON.parse(changed({ schemaVersion: undefined, cases: [one], reflections: [] })));
    const read = readEverything(JSON.stringify(first));
    expect('everything' in read && read.everything.cases[0]).toEqual({ ...one, timesSeenWhileLeftOut: true });
    const today = readEverything(changed({ cases: [one], reflections: [] }));
    expect('everything' in today && today.everything.cases[0]).toEqual(one);
  });

  it('of a later version, cut off, damaged or of another kind is refused with what to do', () => {
    const problem = (text: string) => {
      const read = readEverything(text);
      return 'problem' in read ? read.problem : null;
    };
    expect(problem(changed({ schemaVersion: schemaVersion + 1 }))).toContain('later version of this program');
    expect(problem(everythingText(aWholeRecord()).slice(0, 200))).toContain('incomplete');
    expect(problem(changed({ cases: [{ id: 'case-1' }] }))).toContain('damaged at cases.0');
    expect(problem(changed({ format: 'something' }))).toContain('it says it is something');
    for (const text of ['[]', 'null', '7', '{}']) expect(problem(text)).toContain('not a backup');
  });
});
