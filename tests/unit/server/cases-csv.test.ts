import { describe, expect, it } from 'vitest';
import { readAudit, writingCases } from '../../../src/lib/intake';
import { casesCsv } from '../../../src/lib/server/cases-csv';
import { proceduresOf } from '../../../src/lib/server/procedures';
import { inventedRecord } from '../../../src/lib/server/invented';
import { openMemoryStore } from '../../../src/lib/server/storage';

async function csvOf(query = '') {
  const store = await openMemoryStore();
  await store.loadInvented(await inventedRecord('fellow'));
  const response = await casesCsv(store, new URL(`http://127.0.0.1/cases/cases.csv${query}`), 'cases', writingCases);
  return { store, response, text: await response.text() };
}

describe('the record as CSV', () => {
  it('gives months in place of dates of lists unless days are asked for', async () => {
    const dates = (text: string) => {
      const [head = '', ...rows] = text.trim().split('\n');
      const at = head.split(',').indexOf('date');
      return rows.map((row) => row.split(',')[at] ?? '');
    };
    for (const date of dates((await csvOf()).text)) expect(date).toMatch(/^\d{4}-\d\d$/);
    for (const date of dates((await csvOf('?dates=day')).text)) expect(date).toMatch(/^\d{4}-\d\d-\d\d$/);
  });

  it('holds no day anywhere, not that of a review either, unless days are asked for', async () => {
    const day = /\d{4}-\d\d-\d\d/;
    expect((await csvOf()).text).not.toMatch(day);
    expect((await csvOf('?dates=day')).text).toMatch(/\d{4}-\d\d-\d\dT/);
  });

  it('tells that an event was reviewed, and what was written only where that is asked for and points to nobody', async () => {
    const { store, text } = await csvOf();
    const reviews = (await store.cases())
      .flatMap(({ events }) => events ?? [])
      .flatMap(({ reviewed }) => reviewed ?? []);
    expect(reviews.length).toBeGreaterThan(0);
    for (const review of reviews) expect(text).not.toContain(review.text);
    const reviewedIn = async (csv: string) =>
      readAudit({ text: csv, fileName: 'cases.csv', procedures: await proceduresOf(store) })
        .cases.flatMap(({ events }) => events ?? [])
        .flatMap(({ reviewed }) => reviewed?.text ?? []);
    // Without its text a review is not taken in again: such an event waits once more.
    expect(await reviewedIn(text)).toEqual([]);
    expect(await reviewedIn((await csvOf('?reviews=text')).text)).toEqual(reviews.map((each) => each.text));

    const [one] = (await store.cases()).filter(({ events }) => events?.some(({ reviewed }) => reviewed));
    if (!one?.events) throw new Error('the fellow reviewed an event');
    const at = '2026-11-20T18:00:00.000Z';
    const named = one.events.map((each) => ({ ...each, reviewed: { at, text: 'Seen with Dr Brown, more vacuum.' } }));
    await store.updateCase({ ...one, events: named }, 'Reviewed', at);
    const url = new URL('http://127.0.0.1/cases/cases.csv?reviews=text');
    const again = await (await casesCsv(store, url, 'cases', writingCases)).text();
    expect(again).not.toContain('Brown');
    expect(await reviewedIn(again)).toEqual(reviews.map((each) => each.text).slice(named.length));
  });

  it('leaves the reviews of the record as they are when the file comes back over it', async () => {
    const { store, text } = await csvOf();
    const existing = await store.cases();
    const procedures = await proceduresOf(store);
    const { cases, known } = readAudit({ text, fileName: 'cases.csv', procedures, existing });
    expect(known).toHaveLength(cases.length);
    const before = new Map(existing.map((one) => [one.code, one.events]));
    for (const { code, events } of cases) expect(events, code).toEqual(before.get(code));
    expect(cases.flatMap(({ events }) => events ?? []).some(({ reviewed }) => reviewed !== null)).toBe(true);
  });

  it('gives a list its number where its own name is a day', async () => {
    const { store } = await csvOf();
    const lists = await store.lists();
    for (const list of lists.slice(0, 2))
      await store.updateList({ ...list, label: list.id === lists[0]?.id ? '12 March' : 'Blue room' });
    const csv = async (query: string) =>
      (await casesCsv(store, new URL(`http://127.0.0.1/cases/cases.csv${query}`), 'cases', writingCases)).text();
    expect(await csv('')).not.toContain('12 March');
    expect(await csv('')).toContain('Blue room');
    expect(await csv('?dates=day')).toContain('12 March');
  });

  it('leaves out the cases whose times are hidden, and only those', async () => {
    const { store, text } = await csvOf();
    const cases = await store.cases();
    const { rowsIn, cases: read } = readAudit({ text, fileName: 'cases.csv', procedures: await proceduresOf(store) });
    expect(rowsIn).toBe(cases.length - 13);
    expect(read.length).toBe(rowsIn);
  });

  it('names the file after its procedure and lets no cache keep it', async () => {
    const { headers } = (await csvOf()).response;
    expect(headers.get('content-disposition')).toBe('attachment; filename="cases-phaco.csv"');
    expect(headers.get('cache-control')).toBe('no-store');
  });
});
