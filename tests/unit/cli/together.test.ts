import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { workbook } from '../../browser/workbook';
import { HEAD, madeUp } from './made-up';
import { runIn } from './run-in';

let folder: string;
const assess = (...args: string[]) => runIn(folder, args);
const save = (name: string, lines: string[]) => writeFile(join(folder, name), lines.join('\n'));
const answer = async (...args: string[]) =>
  JSON.parse((await assess(...args, '--json')).out) as Record<string, unknown> & { steps: Record<string, unknown>[] };

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'together-'));
  await save('all.csv', [HEAD, ...madeUp({ count: 40 })]);
  await save('one.csv', [HEAD, ...madeUp({ count: 20 })]);
  await save('two.csv', [HEAD, ...madeUp({ from: 20, count: 20 })]);
  await save('facts.csv', [
    'case_id,nucleus,event',
    ...Array.from({ length: 40 }, (_, at) => `A${at + 1},${at % 2 ? 'hard' : 'soft'},none`),
  ]);
});

describe('several files as one record', () => {
  it('give the numbers of one file that holds all their rows', async () => {
    const [apart, whole] = [await answer('one.csv', 'two.csv', '--together'), await answer('all.csv')];
    expect(apart).toEqual({ ...whole, file: 'one.csv + two.csv' });
    const { err } = await assess('one.csv', 'two.csv', '--together');
    expect(err).toContain('one record of 2 parts: one.csv (140 rows taken), two.csv (140 rows taken).');
  });

  it('are a line each without the word', async () => {
    const { out } = await assess('one.csv', 'two.csv', '--json');
    expect(
      out
        .trimEnd()
        .split('\n')
        .map((line) => (JSON.parse(line) as { cases: number }).cases),
    ).toEqual([20, 20]);
  });

  it('fill in what an earlier file does not say, and name what it says otherwise', async () => {
    await save('again.csv', [HEAD, ...madeUp({ count: 2, factor: 2 }), ...madeUp({ from: 2, count: 3 })]);
    const both = await answer('one.csv', 'facts.csv', 'two.csv', 'again.csv', '--together');
    expect(both).toMatchObject({ cases: 40, events: { cases: 40, answered: 40, any: { n: 0, rate: 0 } } });
    expect(both.left_out).toEqual([
      expect.objectContaining({ file: 'again.csv', row: 2, value: 'A1' }),
      expect.objectContaining({ file: 'again.csv', row: 9, value: 'A2' }),
    ]);
    const { steps } = await answer('all.csv');
    expect(both.steps.map(({ median_s }) => median_s)).toEqual(steps.map(({ median_s }) => median_s));
  });

  it('run by their dates where all have one, whatever order they are named in', async () => {
    const day = (at: number) =>
      `2026-0${1 + Math.floor(at / 20)}-${String(1 + Math.floor((at % 20) / 5)).padStart(2, '0')}`;
    const head = HEAD.replace('list', 'date');
    await save('january.csv', [head, ...madeUp({ count: 20, list: day })]);
    await save('february.csv', [head, ...madeUp({ from: 20, count: 20, list: day })]);
    const goal = ['--goal', 'capsulorhexis', '--from', 'A21', '--together'];
    const [turned, straight] = [
      await answer('february.csv', 'january.csv', ...goal),
      await answer('january.csv', 'february.csv', ...goal),
    ];
    expect(straight.result).toMatchObject({ effect: { n_start: 20, n_window: 20 } });
    expect(turned.result).toEqual(straight.result);
  });

  it('know a surgeon again by name, also in a file that holds only one', async () => {
    await save('b.csv', [HEAD, ...madeUp({ surgeon: 'B', count: 12 })]);
    await save('bc.csv', [
      HEAD,
      ...madeUp({ surgeon: 'C', count: 12 }),
      ...madeUp({ surgeon: 'B', from: 12, count: 12 }),
    ]);
    const named = ['--me', 'A', '--reference', 'B', '--reference', 'C', '--together'];
    const { cases, steps } = await answer('all.csv', 'b.csv', 'bc.csv', ...named);
    expect(cases).toBe(40);
    expect(steps.find(({ step }) => step === 'capsulorhexis')).toMatchObject({ reference: { n: 36, readers: 2 } });
    const lost = await assess('b.csv', '--me', 'A', '--json');
    expect(lost.code).toBe(2);
    expect(lost.out).toContain('there are B');
  });

  it('are refused together where one is not there, which is named', async () => {
    const { code, out } = await assess('one.csv', 'absent.csv', '--together', '--json');
    expect(code).toBe(2);
    expect(JSON.parse(out)).toMatchObject({ file: 'one.csv + absent.csv', problems: [{ file: 'absent.csv' }] });
  });
});

describe('a workbook', () => {
  const table = (from: number) => [
    ['case_id', 'capsulorhexis', 'hydrodissection', 'cortex aspiration'],
    ...Array.from({ length: 20 }, (_, at) => [`A${from + at}`, 40 + (at % 7), 30 + (at % 5), 60 + (at % 9)]),
  ];
  beforeAll(() =>
    writeFile(
      join(folder, 'book.xlsx'),
      workbook({ Notes: [['What this is'], ['Times of my cases']], March: table(1), April: table(21).slice(0, 10) }),
    ),
  );

  it('is read from the sheet that holds most cases; the others are listed', async () => {
    const { code, out, err } = await assess('book.xlsx', '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ file: 'book.xlsx', cases: 20 });
    expect(err).toContain('book.xlsx: read from book.xlsx [March].');
    expect(err).toMatch(/other sheets, not read: Notes \(2 rows\), April \(10 rows\)/);
  });

  it('is read from the sheet that is named; a name that none has is told with those there are', async () => {
    expect(await answer('book.xlsx', '--sheet', 'april')).toMatchObject({ cases: 9 });
    const { code, out } = await assess('book.xlsx', '--sheet', 'May', '--json');
    expect(code).toBe(2);
    expect(JSON.parse(out)).toMatchObject({
      problems: [{ column: '--sheet', value: 'May', why: 'There is no such sheet. Sheets: Notes, March, April.' }],
    });
  });

  it('is one record of all its sheets with cases, or of those that are named', async () => {
    expect(await answer('book.xlsx', '--together')).toMatchObject({ cases: 29, file: 'book.xlsx' });
    const { err } = await assess('book.xlsx', '--together');
    expect(err).toMatch(/other sheets, not read: book\.xlsx \[Notes\]/);
    const named = await answer('book.xlsx', '--together', '--sheet', 'March', '--sheet', 'April');
    expect(named).toMatchObject({ cases: 29 });
  });
});
