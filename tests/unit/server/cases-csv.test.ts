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
    const { text } = await csvOf();
    expect(text).not.toMatch(day);
    expect((await csvOf('?dates=day')).text).toMatch(/\d{4}-\d\d-\d\dT/);
    // The reviews are still there when the file comes back.
    const read = readAudit({ text, fileName: 'cases.csv', procedures: await proceduresOf((await csvOf()).store) });
    expect(read.cases.flatMap(({ events }) => events ?? []).filter(({ reviewed }) => reviewed !== null)).not.toEqual(
      [],
    );
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
