import { describe, expect, it } from 'vitest';
import { openMemoryStore } from '../../../src/lib/server/storage';
import { holdParts, lookedAt, partsAfter, sentParts } from '../../../src/lib/server/held-import';

const NOW = '2026-11-29T09:00:00.000Z';

function form(...entries: [string, string | File][]): FormData {
  const made = new FormData();
  for (const [name, value] of entries) made.append(name, value);
  return made;
}
const file = (name: string, text: string) => new File([text], name);
const names = async (sent: ReturnType<typeof sentParts>) => {
  const read = await sent;
  return 'parts' in read ? read.parts.map(({ fileName }) => fileName) : read;
};

describe('what is sent to be brought in', () => {
  it('is one part a file and a sheet, in order; a sheet is named with its file', async () => {
    const sent = form(
      ['file', file('january.csv', 'case_id')],
      ['file', file('february.csv', 'case_id')],
      ['rows', 'case_id'],
      ['rowsName', 'year.xlsx'],
      ['rowsSheet', 'March'],
      ['rows', 'case_id'],
      ['rowsName', 'one.xlsx'],
      ['rowsSheet', ''],
    );
    expect(await names(sentParts(sent))).toEqual(['january.csv', 'february.csv', 'year.xlsx [March]', 'one.xlsx']);
  });

  it('names no person by a sheet', async () => {
    const sent = form(['rows', 'x'], ['rowsName', 'year.xlsx'], ['rowsSheet', 'Dr Anna Smith']);
    expect(await names(sentParts(sent))).toEqual(['year.xlsx [a sheet]']);
  });

  it.each([
    ['nothing chosen', form(['file', file('', '')]), /Choose a file first/],
    ['an empty file among others', form(['file', file('a.csv', 'x')], ['file', file('b.csv', '')]), /b\.csv is empty/],
    ['no cells', form(['cells', '  ']), /no cells here yet/],
    ['too many', form(...Array.from({ length: 25 }, (_, at): [string, File] => ['file', file(`${at}.csv`, 'x')])), /These are 25/], // prettier-ignore
  ])('%s: nothing is held, and why', async (_, sent, why) => {
    expect(await sentParts(sent)).toMatchObject({ problem: expect.stringMatching(why) as string });
  });
});

describe('parts of one record', () => {
  it('are held so that each knows those after it', async () => {
    const store = await openMemoryStore();
    const parts = ['a.csv', 'b.csv', 'c.csv'].map((fileName) => ({ fileName, text: `case_id\n${fileName}` }));
    let held = await holdParts(store, parts, NOW);
    for (const [at, { fileName }] of parts.entries()) {
      expect(held?.fileName).toBe(fileName);
      const after = held && (await partsAfter(store, held));
      expect(after).toMatchObject({ part: at + 1, of: 3 });
      expect(after?.next.map((next) => next.fileName)).toEqual(parts.slice(at + 1).map((next) => next.fileName));
      held = after?.next[0] ?? null;
    }
    expect(held).toBeNull();
  });

  it('that were put away meanwhile are passed over; a file alone has none', async () => {
    const store = await openMemoryStore();
    const first = await holdParts(store, [1, 2, 3].map((n) => ({ fileName: `${n}.csv`, text: 'x' })), NOW); // prettier-ignore
    const [second] = (first && (await partsAfter(store, first)))?.next ?? [];
    await store.dropHeldImport(second?.id ?? '');
    expect((first && (await partsAfter(store, first)))?.next.map(({ fileName }) => fileName)).toEqual(['3.csv']);
    const alone = await holdParts(store, [{ fileName: 'a.csv', text: 'x' }], NOW);
    expect([alone?.choices, alone && (await partsAfter(store, alone))]).toEqual([{}, null]);
  });

  it('wait another hour together, each time one of them is looked at', async () => {
    const store = await openMemoryStore();
    const hour = (hours: number) => new Date(Date.parse(NOW) + hours * 3_600_000).toISOString();
    const first = await holdParts(store, [1, 2, 3].map((n) => ({ fileName: `${n}.csv`, text: 'x' })), NOW); // prettier-ignore
    if (!first) throw new Error('nothing was held');
    await lookedAt(store, first, hour(0.9));
    await store.dropForgottenImports(hour(1.8));
    expect((await partsAfter(store, first))?.next.map(({ fileName }) => fileName)).toEqual(['2.csv', '3.csv']);
    await store.dropForgottenImports(hour(2));
    expect((await partsAfter(store, first))?.next).toEqual([]);
  });
});
