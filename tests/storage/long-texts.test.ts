import { describe, expect, it } from 'vitest';
import { AboutPersons, askingAboutPersons } from '../../src/lib/server/about-persons';
import { readReflection } from '../../src/lib/server/reflections';
import { newList } from '../../src/lib/server/typed-case';
import { openMemoryStore, type Store } from '../../src/lib/server/storage';
import { aCase, aGoal, aReflection, now } from '../made-up/stored';

const unknown = { kind: 'unknown' } as const;
const long = (length: number) => 'as it was '.repeat(length).slice(0, length - 1) + '.';

async function typing(text: string) {
  const plain = await openMemoryStore();
  const about = new AboutPersons([]);
  const form = new FormData();
  form.set('other', 'a line');
  form.set('text', text);
  about.heardForm(form);
  return { plain, store: askingAboutPersons(plain, about) };
}

const texts: [what: string, most: number, change: (store: Store, text: string) => Promise<unknown>][] = [
  ['the label of a list', 60, (store, text) => store.recordList(newList(text, unknown))],
  ['a tag', 60, (store, text) => store.saveReflection({ ...aReflection([]), tags: [text] })],
  ['a note', 20_000, (store, text) => store.saveReflection({ ...aReflection([]), saw: text })],
  ['why a case is kept', 300, (store, text) => store.recordCase(aCase('A', { keptAsItIs: { since: now, why: text } }))],
  ['why a goal was chosen', 300, (store, text) => store.startGoal({ ...aGoal([]), reason: text })],
  [
    'where a rate comes from',
    240,
    (store, text) => store.changeProfile((stored) => ({ ...stored, seriousRate: { rate: 0.02, source: text } })),
  ],
];

describe('a text that is too long', () => {
  it.each(texts)('is refused beside its field, and not cut: %s', async (_, most, change) => {
    const { plain, store } = await typing(long(most + 1));
    const before = await plain.everything();
    await expect((async () => change(store, long(most + 1)))()).rejects.toMatchObject({
      field: 'text',
      message: `At most ${most} characters; these are ${most + 1}. Nothing was cut off.`,
    });
    expect(await plain.everything()).toEqual(before);
    const fits = await typing(long(most));
    await change(fits.store, long(most));
    expect(JSON.stringify(await fits.plain.everything())).toContain(long(most));
  });

  it('is refused beside its field where other tags were typed with it', async () => {
    const { store } = await typing(`calm, ${long(61)}`);
    const stored = async () => store.saveReflection({ ...aReflection([]), tags: ['calm', long(61)] });
    await expect(stored()).rejects.toMatchObject({ field: 'text' });
  });

  it('stays where it came in otherwise, while something else of its record is changed', async () => {
    const { plain, store } = await typing('9');
    const list = await plain.recordList(newList(long(100), unknown));
    await store.changeList(list.id, (stored) => ({ ...stored, operated: 9 }));
    expect((await plain.lists())[0]).toMatchObject({ label: long(100), operated: 9 });
  });

  it('is said of too many tags, too', () => {
    const form = new FormData();
    form.set('saw', 'a line');
    form.set('tags', Array.from({ length: 13 }, (_, nth) => `tag ${nth}`).join(', '));
    expect(readReflection(form).errors).toEqual([{ field: 'tags', message: 'At most 12 tags; these are 13.' }]);
    expect(readReflection(form).input.tags).toHaveLength(13);
  });
});
