import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newCaseSchema } from '../../../src/lib/model';
import { readAuditInSlices, type AuditReading } from '../../../src/lib/intake';
import { procedures } from './procedures';
import { plainCase, read } from './reading';

const cell = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      'Rhexis',
      'Phaco',
      'visco',
      'I/A',
      'IOL',
      'incision',
      'side port',
      'hydro',
      'waiting',
      'rubbish',
      'Mean',
      '',
    ),
  },
  { weight: 8, arbitrary: fc.integer({ min: -5, max: 300 }).map(String) },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      '1:23',
      '1:75',
      '1.23',
      '83,5',
      '-',
      '0',
      'n/a',
      'x',
      'yes',
      'none',
      '2025-03-01',
      '1/2/2025',
      'A',
      'B',
      'me',
      'Miller',
      'sics',
      'phaco',
      'squint',
    ),
  },
  { weight: 1, arbitrary: fc.string({ maxLength: 6 }) },
);
const heading = fc.constantFrom(
  'case_id',
  'step',
  'start_s',
  'end_s',
  'seconds',
  'rhexis',
  'phaco',
  'visco',
  'I/A',
  'date',
  'list',
  'position',
  'surgeon',
  'procedure',
  'kind',
  'reason',
  'event',
  'hands',
  'nucleus',
  'pupil',
  'name',
  'rhexis waiting',
  'iol went back',
  'lens identity pause',
  'nonsense',
);

const sheet = fc
  .tuple(fc.uniqueArray(heading, { minLength: 2, maxLength: 9 }), fc.constantFrom(',', ';', '\t'))
  .chain(([headings, sign]) =>
    fc
      .array(fc.array(cell, { minLength: headings.length, maxLength: headings.length }), { maxLength: 25 })
      .map((rows) => {
        const quoted = (text: string) => (/[",;\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
        return { rows, text: [headings, ...rows].map((row) => row.map(quoted).join(sign)).join('\n') };
      }),
  );

/** The promise: what is not taken is named, with its row; nothing is both, nothing is lost. */
function accounted(reading: AuditReading): void {
  expect(reading.rowsTaken + reading.rowsNamed).toBe(reading.rowsIn);
  const named = new Set(reading.problems.filter(({ weight }) => weight === 'refused').map(({ row }) => row));
  const inCases = [...reading.cases, ...reading.references.map((one) => one.case)].map(({ row }) => row);
  expect(reading.rowsTaken).toBeGreaterThanOrEqual(new Set(inCases).size);
  expect(named.size).toBeGreaterThanOrEqual(reading.rowsNamed);
  for (const { why } of reading.problems) expect(why.length).toBeGreaterThan(20);
}

describe('every row is taken or named', () => {
  it('whatever is in the file', () => {
    fc.assert(
      fc.property(sheet, ({ rows, text }) => {
        const reading = read(text);
        accounted(reading);
        if (reading.layout !== null && !reading.problems.some(({ why }) => /stands above the headings/.test(why)))
          expect(reading.rowsIn).toBe(rows.filter((row) => row.some((one) => one.trim() !== '')).length);
        for (const one of reading.cases) newCaseSchema.parse(one);
        expect(new Set(reading.cases.map(({ code }) => code)).size).toBe(reading.cases.length);
        const keys = new Set(reading.lists.map(({ key }) => key));
        for (const { list } of reading.cases) expect(list === null || keys.has(list)).toBe(true);
      }),
      { numRuns: 100 },
    );
  });

  it('whatever is answered', () => {
    fc.assert(
      fc.property(sheet, fc.infiniteStream(fc.nat()), ({ text }, draws) => {
        const answers: Record<string, string> = {};
        for (const { id, options } of read(text).questions)
          answers[id] = options[(draws.next().value ?? 0) % options.length]?.value ?? '';
        const reading = read(text, answers);
        accounted(reading);
        for (const one of reading.cases) newCaseSchema.parse(one);
      }),
      { numRuns: 100 },
    );
  });

  it('whatever is said of the columns', () => {
    fc.assert(
      fc.property(sheet, fc.infiniteStream(fc.nat()), ({ text }, draws) => {
        const first = read(text);
        const answers: Record<string, string> = {};
        for (const { kind, key } of first.mapping) {
          const options = kind === 'column' ? first.columnOptions : first.labelOptions;
          answers[key] = options[(draws.next().value ?? 0) % options.length]?.value ?? '';
        }
        accounted(read(text, answers));
      }),
      { numRuns: 60 },
    );
  });

  it('and any bytes at all', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), (text) => accounted(read(text))),
      { numRuns: 100 },
    );
  });
});

describe('a large file', () => {
  it('of 50,000 rows too', () => {
    const rows = Array.from({ length: 5000 }, (_, index) => plainCase(`A${index}`));
    const text = `case_id,step,start_s,end_s\n${rows.join('\n')}`;
    const reading = read(text);
    expect(reading).toMatchObject({ rowsIn: 50_000, rowsTaken: 50_000, rowsNamed: 0 });
    expect(reading.cases).toHaveLength(5000);
  });

  it.each([
    [
      'a stretch',
      `case_id,step,start_s,end_s\n${Array.from({ length: 800 }, (_, at) => plainCase(`A${at}`)).join('\n')}`,
    ],
    [
      'a case',
      `case,rhexis,phaco,I/A,IOL\n${Array.from({ length: 4000 }, (_, at) => `A${at},60,70,80,90`).join('\n')}`,
    ],
  ])('tells how far it is, evenly enough to be believed: one row %s', async (_, text) => {
    const shares: number[] = [];
    const progress = (share: number) => shares.push(share);
    await readAuditInSlices(
      { text, fileName: 'invented.csv', procedures, withRows: true },
      { pause: async () => {}, progress },
    );
    const half = shares[Math.floor(shares.length / 2)] ?? 0;
    expect(half).toBeGreaterThan(0.3);
    expect(half).toBeLessThan(0.7);
    expect(shares.at(-1)).toBeGreaterThan(0.75);
    expect(shares.every((share, at) => share <= 0.99 && share >= (shares[at - 1] ?? 0))).toBe(true);
  });
});
