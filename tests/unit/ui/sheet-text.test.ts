import { describe, expect, it } from 'vitest';
import { cellText, sheetText } from '../../../src/lib/workbook/sheet-text.js';

describe('cells of a workbook as text', () => {
  it('takes the time alone of a moment in 1899: that is how a sheet keeps 0:01:23', () => {
    expect(cellText(new Date('1899-12-30T00:01:23.000Z'))).toBe('0:01:23');
    // A third of a second comes back as a fraction of a day, so it is a little off.
    expect(cellText(new Date('1899-12-30T00:01:22.999Z'))).toBe('0:01:23');
  });

  it('keeps a length of more than a day', () => {
    expect(cellText(new Date('1899-12-31T01:00:00.000Z'))).toBe('25:00:00');
  });

  it('keeps dates as ISO days, numbers with a point, and an empty cell empty', () => {
    expect(cellText(new Date('2026-03-02T00:00:00.000Z'))).toBe('2026-03-02');
    expect([cellText(1.5), cellText(0), cellText(null), cellText(true)]).toEqual(['1.5', '0', '', 'yes']);
  });

  it('quotes what would break a row', () => {
    expect(
      sheetText([
        ['a,b', 'say "x"'],
        ['1\n2', 3],
      ]),
    ).toBe('"a,b","say ""x"""\n"1\n2",3');
  });
});
