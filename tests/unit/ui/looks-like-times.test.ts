import { describe, expect, it } from 'vitest';
import { rowsOfTimes, sheetOfTimes } from '../../../src/lib/workbook/looks-like-times.js';

const times = [
  ['case', 'rhexis', 'phaco', 'I/A'],
  ['A1', '61.5', '1:40', '50'],
  ['A2', '75', '', '0:00:44'],
  ['A3', '1,23', '130 s', '39'],
];

describe('rows that look like times', () => {
  it('are those with lengths or readings beside a code: a row a case, or a row a stretch', () => {
    expect(rowsOfTimes(times)).toBe(3);
    expect(rowsOfTimes([['case', 'step', 'seconds'], ['A1', 'rhexis', '61.5'], ['A1', 'phaco', '120']])).toBe(2); // prettier-ignore
    expect(rowsOfTimes([['A1', '0:10', '0:55'], ['', '61', '75']])).toBe(1); // prettier-ignore
  });

  it('are none on a page of words, of dates or of facts of the eye', () => {
    expect(rowsOfTimes([['What this is'], ['Times of my cases', 'since 2024']])).toBe(0);
    expect(rowsOfTimes([['case', 'date', 'nucleus'], ['A1', '2026-03-12', 'hard'], ['A2', '2026-03-13', 'soft']])).toBe(0); // prettier-ignore
    expect(rowsOfTimes([])).toBe(0);
  });
});

describe('the sheet a workbook opens on', () => {
  it('has most rows of times; the first where none or several have as many', () => {
    const sheets = (...counts: number[]) => counts.map((count) => ({ times: count }));
    expect(sheetOfTimes(sheets(0, 40, 12))).toBe(1);
    expect(sheetOfTimes(sheets(3, 3))).toBe(0);
    expect(sheetOfTimes(sheets(0, 0))).toBe(0);
  });
});
