import { describe, expect, it } from 'vitest';
import { intakeThresholds } from '../../../src/lib/intake/thresholds';
import { cellTooFar, COLUMNS_MOST, ROWS_MOST, tooFar } from '../../../src/lib/workbook/workbook-limits.js';

const sheet = (...cells: string[]) =>
  `<worksheet><sheetData>${cells.map((at) => `<row r="${at.replace(/\D/g, '')}"><c r="${at}" t="s"><v>1</v></c></row>`).join('')}</sheetData></worksheet>`;

describe('how far a workbook is read', () => {
  it('as far as a file of text', () => {
    expect([ROWS_MOST, COLUMNS_MOST]).toEqual([intakeThresholds.mostRows, intakeThresholds.mostColumns]);
  });

  it('names a cell beyond, and what to do', () => {
    expect(cellTooFar(sheet('A1', 'C20', 'SF300000'))).toBeNull();
    // SF is the 500th column (19 × 26 + 6), XFD1048576 the last cell a sheet can have.
    expect(cellTooFar(sheet('A1', 'SG2'))).toBe('SG2');
    expect(cellTooFar(sheet('A1', 'A300001'))).toBe('A300001');
    expect(cellTooFar('<c r="XFD1048576"><v>1</v></c>')).toBe('XFD1048576');
    // Rows and cells with a format alone, as some programs write to the last line of a sheet.
    expect(cellTooFar('<row spans="1:2" r="1048576"><c s="3" r="XFD1048576"/></row>')).toBeNull();
    expect(tooFar('XFD1048576')).toMatch(/at XFD1048576; at most 300,000 rows and 500 columns.*Delete/);
  });
});
