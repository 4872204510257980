import { describe, expect, it } from 'vitest';
import { bringInView } from '../../../src/lib/rooms/bring-in/bring-in-view';
import { caseView } from '../../../src/lib/rooms/cases/case-view';
import { importBatch, importPlan } from '../../../src/lib/rooms/bring-in/import-plan';
import { waitingEvents } from '../../../src/lib/rooms/now/waiting-events';
import { readAudit, writingCases } from '../../../src/lib/intake';
import type { Case } from '../../../src/lib/model';
import { gate } from '../../../src/lib/safety';
import { readRecord } from '../../../src/lib/server/record';
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
    for (const review of reviews) expect(text).not.toContain(review.text ?? 'no text');
    const reviewedIn = async (csv: string) =>
      readAudit({ text: csv, fileName: 'cases.csv', procedures: await proceduresOf(store) })
        .cases.flatMap(({ events }) => events ?? [])
        .flatMap(({ reviewed }) => reviewed ?? []);
    const month = ({ at }: { at: string }) => at.slice(0, 7);
    const without = await reviewedIn(text);
    expect(without.map((each) => each.text)).toEqual(reviews.map(() => null));
    expect(without.map(month)).toEqual(reviews.map(month));
    const texts = (all: typeof without) => all.map((each) => each.text);
    expect(texts(await reviewedIn((await csvOf('?reviews=text')).text))).toEqual(texts(reviews));

    const [one] = (await store.cases()).filter(({ events }) => events?.some(({ reviewed }) => reviewed));
    if (!one?.events) throw new Error('the fellow reviewed an event');
    const at = '2026-11-20T18:00:00.000Z';
    const named = one.events.map((each) => ({ ...each, reviewed: { at, text: 'Seen with Dr Brown, more vacuum.' } }));
    await store.updateCase({ ...one, events: named }, 'Reviewed', at);
    const url = new URL('http://127.0.0.1/cases/cases.csv?reviews=text');
    const again = await (await casesCsv(store, url, 'cases', writingCases)).text();
    expect(again).not.toContain('Brown');
    expect(texts(await reviewedIn(again))).toEqual([...named.map(() => null), ...texts(reviews).slice(named.length)]);
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

  it('brought into an empty record keeps that events were reviewed, and the gate open', async () => {
    const { store, text } = await csvOf();
    const empty = await openMemoryStore();
    const reading = readAudit({ text, fileName: 'cases.csv', procedures: await proceduresOf(empty) });
    const now = '2026-11-25T10:00:00.000Z';
    const held = await empty.holdImport({ heldAt: now, fileName: 'cases.csv', text, choices: {} });
    const plan = importPlan(reading, {});
    await empty.recordImport(
      held,
      importBatch(plan, reading, now, () => false),
      'hash',
      now,
    );

    const [from, to] = [await readRecord(store), await readRecord(empty)];
    const codes = new Set(to.cases.map(({ code }) => code));
    const before = from.cases.filter(({ code }) => codes.has(code));
    const procedure = to.procedures.find(({ id }) => id === 'phaco')!;
    const closed = (windowCases: readonly Case[]) =>
      gate({ procedure, stepId: 'capsulorhexis', windowCases }).reasons.filter(({ code }) => code === 'unreviewed');
    const reviewedOf = (cases: readonly Case[]) =>
      cases.flatMap(({ events }) => events ?? []).filter(({ serious, reviewed }) => serious && reviewed !== null);
    expect(reviewedOf(before).length).toBeGreaterThan(0);
    expect(reviewedOf(to.cases)).toHaveLength(reviewedOf(before).length);
    expect(closed(to.cases)).toHaveLength(closed(before).length);
    const waiting = ({ cases }: typeof to) => waitingEvents({ ...to, lists: [], cases });
    expect(waiting(to)).toHaveLength(waiting({ ...from, cases: before }).length);

    const one = to.cases.find(({ events }) => events?.some(({ reviewed }) => reviewed))!;
    const words = caseView(one, to, false).events?.flatMap(({ reviewed }) => reviewed ?? []);
    expect(words?.[0]).toMatch(/^Reviewed in [A-Z][a-z]+ \d{4}; its text was not in the file\.$/);
    expect(bringInView(reading, {}, { ...to, references: [] }).notes.join(' ')).toMatch(
      /reviewed where this file comes from; the text of the review is not in it\./,
    );
    // It goes out again as it came in.
    const url = new URL('http://127.0.0.1/cases/cases.csv');
    const column = (csv: string) => readAudit({ text: csv, fileName: 'c.csv', procedures: to.procedures }).cases;
    const events = (csv: string) => column(csv).map(({ code, events: all }) => [code, all]);
    expect(events(await (await casesCsv(empty, url, 'cases', writingCases)).text())).toEqual(events(text));
  });

  it('makes no event of the record count as reviewed, and takes no review away', async () => {
    const { store, text } = await csvOf();
    const procedures = await proceduresOf(store);
    const existing = (await store.cases()).map((one) => ({
      ...one,
      events: one.events && one.events.map((event) => ({ ...event, reviewed: null })),
    }));
    const { cases } = readAudit({ text, fileName: 'cases.csv', procedures, existing });
    expect(cases.flatMap(({ events }) => events ?? []).every(({ reviewed }) => reviewed === null)).toBe(true);
  });

  it('gives a list its number where its own name is a day', async () => {
    const { store } = await csvOf();
    const lists = await store.lists();
    for (const list of lists.slice(0, 2))
      await store.changeList(list.id, (stored) => ({
        ...stored,
        label: list.id === lists[0]?.id ? '12 March' : 'Blue room',
      }));
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
