import { describe, expect, it } from 'vitest';
import { keptAnswers, recordKey } from '../../../src/lib/server/kept-answers';
import { aCase, aRecord } from '../../made-up/record';

describe('answers kept under a key', () => {
  it('are computed once, for two who ask at the same time too', async () => {
    let made = 0;
    const kept = keptAnswers<number>(2);
    const make = async () => ++made;
    expect(await Promise.all([kept('a', make), kept('a', make)])).toEqual([1, 1]);
    expect(await kept('a', make)).toBe(1);
  });

  it('go when newer ones come, the one not asked for longest first', async () => {
    const made: string[] = [];
    const kept = keptAnswers<string>(2);
    const ask = (key: string) =>
      kept(key, async () => {
        made.push(key);
        return key;
      });
    for (const key of ['a', 'b', 'a', 'c', 'a', 'b']) await ask(key);
    expect(made).toEqual(['a', 'b', 'c', 'b']);
  });

  it('are not kept when they fail', async () => {
    const kept = keptAnswers<number>(2);
    await expect(
      kept('a', async () => {
        throw new Error('no');
      }),
    ).rejects.toThrow('no');
    expect(await kept('a', async () => 7)).toBe(7);
  });
});

describe('the key of a record', () => {
  const cases = [aCase(1), aCase(2)];
  it('stays while every object is the same, and changes with one of them', () => {
    const record = aRecord({ cases });
    expect(recordKey({ ...record, cases: [...cases] })).toBe(recordKey(record));
    expect(recordKey({ ...record, cases: [aCase(1), cases[1] ?? aCase(2)] })).not.toBe(recordKey(record));
    expect(recordKey({ ...record, cases: cases.slice(1) })).not.toBe(recordKey(record));
    expect(recordKey({ ...record, profile: { ...record.profile } })).not.toBe(recordKey(record));
  });
});
