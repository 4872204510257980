import { describe, expect, it } from 'vitest';
import { bringInView } from '../../../src/lib/rooms/bring-in/bring-in-view';
import { choicesFromForm } from '../../../src/lib/rooms/bring-in/import-choices';
import { kindOfRows, rowKinds, rowsView, type RowKind } from '../../../src/lib/rooms/bring-in/rows-view';
import { plainBlanks } from '../../../src/lib/format';
import { leftRowsText, readAudit, ROWS_LEFT, rowsLeft } from '../../../src/lib/intake';
import { procedures } from '../intake/procedures';

const text = [
  'Unit audit,,,,,',
  'case_id,Patient name,Nucleus,Rhexis,Phaco,Complication',
  'A1,Smith,2+,1.23,2.40,none',
  'A2,Jones,hard,1.31,2.10,-',
  'A3,Brown,few,1.05,2.31,keine',
  'A4,White,soft,x,2.02,none',
  'A5,Black,soft,,,none',
  'Ø,,,1.20,2.20,',
].join('\n');
const ANSWERS = { procedure: 'phaco', 'plain-number': 'minutes-seconds' };
const read = (choices: Record<string, string> = {}, of = text) =>
  readAudit({ text: of, fileName: 'a.csv', procedures, choices: { ...ANSWERS, ...choices }, withRows: true });
const view = (choices: Record<string, string> = {}, kind: RowKind = 'all', page = 1, of = text) => {
  const rows = rowsView(read(choices, of), [], rowsLeft(choices[ROWS_LEFT] ?? ''), { kind, page });
  if (!rows) throw new Error('no rows');
  return rows;
};
const counts = (choices: Record<string, string> = {}) =>
  Object.fromEntries(view(choices).kinds.map(({ kind, rows }) => [kind, rows]));

describe('the rows of a file as they were understood', () => {
  it('are all there, with what each cell became and why a row or value stays out', () => {
    const { rows, columns } = view();
    expect(columns.map(({ heading, to }) => [heading, to])).toEqual([
      ['case_id', 'code of the case'],
      ['Nucleus', 'about this eye: Nucleus'],
      ['Rhexis', 'Capsulorhexis'],
      ['Phaco', 'Nucleus removal'],
      ['Complication', 'event'],
    ]);
    expect(rows.map(({ row, take }) => [row, take])).toEqual([
      [1, 'fixed'],
      [3, 'yes'],
      [4, 'yes'],
      [5, 'yes'],
      [6, 'yes'],
      [7, 'fixed'],
      [8, 'fixed'],
    ]);
    const cells = (row: number) =>
      rows
        .find((one) => one.row === row)
        ?.cells.map(({ text: written, became, mark }) => [written, became && plainBlanks(became), mark]);
    expect(cells(3)).toEqual([
      ['A1', null, 'plain'],
      ['2+', 'medium', 'turned'],
      ['1.23', '1 min 23 s', 'turned'],
      ['2.40', '2 min 40 s', 'turned'],
      ['none', null, 'plain'],
    ]);
    expect(cells(4)?.at(-1)).toEqual(['-', 'none', 'turned']);
    expect(cells(5)?.slice(1, 2)).toEqual([['few', null, 'refused']]);
    expect(cells(5)?.at(-1)).toEqual(['keine', 'none', 'turned']);
    expect(cells(6)?.slice(2, 3)).toEqual([['x', null, 'refused']]);
    expect(rows.find(({ row }) => row === 8)?.remarks).toEqual([
      'This row is named "Ø" and is not a case; it is left out.',
    ]);
  });

  it('show nothing of a column that points to a person', () => {
    expect(JSON.stringify(view())).not.toMatch(/Smith|Jones|Brown|Patient name/);
    const onlyNames = 'Patient name,Rhexis,Phaco\nSmith,80,160\nJones,81,161';
    expect(JSON.stringify(view({}, 'all', 1, onlyNames))).not.toMatch(/Smith|Jones/);
  });

  it('are counted by kind, each count the rows that are then shown, and those left out the ones of the button', () => {
    expect(counts()).toEqual({ all: 7, turned: 4, asked: 0, refused: 2, out: 3 });
    for (const kind of rowKinds) expect(view({}, kind).rows).toHaveLength(counts()[kind] ?? 0);
    const reading = read();
    expect([reading.rowsIn, reading.rowsTaken, reading.rowsNamed]).toEqual([7, 4, 3]);
    const whole = bringInView(reading, ANSWERS, { procedures, references: [], lists: [] });
    expect(whole.take).toBe('Take 4 cases; 3 rows named above stay out');
    expect(whole.rows?.kinds.find(({ kind }) => kind === 'out')?.rows).toBe(3);
  });

  it('are left out or taken by a tick, and list, counts and button say the same', () => {
    const left = { [ROWS_LEFT]: '3 5' };
    expect(counts(left)).toEqual({ all: 7, turned: 2, asked: 0, refused: 1, out: 5 });
    const reading = read(left);
    expect(reading.cases.map(({ code }) => code)).toEqual(['A2', 'A4']);
    expect([reading.rowsIn, reading.rowsTaken, reading.rowsNamed]).toEqual([7, 2, 5]);
    const whole = bringInView(reading, { ...ANSWERS, ...left }, { procedures, references: [], lists: [] });
    expect(whole.take).toBe('Take 2 cases; 5 rows named above stay out');
    expect(whole.refused.first.join(' ')).toContain('Rows 3 and 5: Left out, as you chose.');
    expect(
      view(left)
        .rows.map(({ row, take }) => (take === 'left' ? row : null))
        .filter(Boolean),
    ).toEqual([3, 5]);
  });

  it('come a page at a time, however many there are, with the full count of each kind', () => {
    const many = [
      'case_id,Rhexis,Phaco',
      ...Array.from({ length: 60 }, (_, at) => `B${at},${80 + (at % 7)},${at % 10 === 0 ? 'n/a' : 160 + (at % 5)}`),
    ].join('\n');
    const first = view({}, 'all', 1, many);
    expect([first.from, first.to, first.of, first.pages, first.rows.length]).toEqual([1, 25, 60, 3, 25]);
    const last = view({}, 'all', 99, many);
    expect([last.from, last.to, last.page, last.rows.length]).toEqual([51, 60, 3, 10]);
    const turned = view({}, 'turned', 1, many);
    expect([turned.of, turned.kinds.find(({ kind }) => kind === 'turned')?.rows]).toEqual([6, 6]);
    expect(view({}, 'asked', 1, many)).toMatchObject({ from: 0, to: 0, of: 0, pages: 1 });
  });

  it('counts what is asked about beside the reading', () => {
    const odd = [{ row: 4, column: 'Phaco', value: '2.10', why: 'Is the time right?', weight: 'queried' as const }];
    const rows = rowsView(read(), odd, new Set(), { kind: 'asked', page: 1 });
    expect(rows?.rows.map(({ row, remarks }) => [row, remarks])).toEqual([[4, ['Phaco: Is the time right?']]]);
    expect(rows?.rows[0]?.cells[3]?.mark).toBe('asked');
  });

  it('an unknown kind in the address is all of them', () => {
    expect([kindOfRows('turned'), kindOfRows('x'), kindOfRows(null)]).toEqual(['turned', 'all', 'all']);
  });
});

describe('the ticks as sent', () => {
  const send = (fields: Record<string, string[]>, before: Record<string, string> = {}) =>
    choicesFromForm(fields, read(before), { ...ANSWERS, ...before });

  it('leave out what is shown without its tick, and nothing that is not shown', () => {
    const { choices, changed } = send({ 'row-shown': ['3', '4', '5'], 'row-taken': ['3', '5'] }, { [ROWS_LEFT]: '99' });
    expect([choices[ROWS_LEFT], changed]).toEqual(['4 99', true]);
  });

  it('take again what is ticked, and change nothing where nothing changed', () => {
    expect(send({ 'row-shown': ['4'], 'row-taken': ['4'] }, { [ROWS_LEFT]: '4' }).choices[ROWS_LEFT]).toBe('');
    expect(send({ 'row-shown': ['4'], 'row-taken': ['4'] })).toMatchObject({ changed: false, choices: ANSWERS });
    expect(send({ 'row-shown': ['0', '-1', '1e9', 'x'] }).changed).toBe(false);
  });

  it('are kept as ranges, read back as they were', () => {
    expect(leftRowsText([9, 3, 4, 5, 5, 1])).toBe('1 3-5 9');
    expect([...rowsLeft('1 3-5 9')]).toEqual([1, 3, 4, 5, 9]);
    expect([...rowsLeft('5-3 x')]).toEqual([]);
    expect(leftRowsText(Array.from({ length: 50_000 }, (_, row) => row + 1))).toBe('1-50000');
  });
});
