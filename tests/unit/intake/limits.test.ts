import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { intakeThresholds } from '../../../src/lib/intake/thresholds';
import { cellsOf } from '../../../src/lib/intake/table/cells';
import { atOnce } from '../../../src/lib/turns';
import { read, readBytes } from './reading';

const { mostLines, mostRows, mostColumns, longestCell, longestRow, mostLabels, problemsListed } = intakeThresholds;
const lines = (count: number, line: (index: number) => string) => Array.from({ length: count }, (_, at) => line(at));
const refused = (row: number | null, why: RegExp) => ({
  layout: null,
  cases: [],
  rowsIn: 0,
  ready: false,
  problems: [{ row, why: expect.stringMatching(why), weight: 'refused' }],
});

describe('a file above a limit is refused, and the limit is named', () => {
  it('columns', () => {
    const headings = ['case', 'rhexis', ...lines(mostColumns - 2, (at) => `extra ${at}`)];
    const row = headings.map((_, at) => (at === 0 ? 'A' : '60'));
    expect(read([headings, row].map((cells) => cells.join(',')).join('\n')).cases).toHaveLength(1);
    const wider = [
      [...headings, 'one more'],
      [...row, '60'],
    ]
      .map((cells) => cells.join(','))
      .join('\n');
    expect(read(wider)).toMatchObject(refused(1, /has 501 columns; at most 500 are read/));
    // A sheet saved as wide as it can be: nothing stands in the columns beyond.
    expect(read(`case,rhexis${','.repeat(16_382)}\nA,60${','.repeat(16_382)}`).cases).toHaveLength(1);
  });

  it('letters of a cell and of a row', () => {
    const noted = (letters: number) => `case,rhexis,note\nA,60,${'x'.repeat(letters)}\nB,61,`;
    expect(read(noted(longestCell)).cases).toHaveLength(2);
    expect(read(noted(longestCell + 1))).toMatchObject(
      refused(2, /50,001 letters; at most 50,000 are read.*quotation mark/),
    );
    const wide = `case,rhexis,note\nA,60${',x'.repeat(longestRow / 2)}\nB,61,`;
    expect(read(wide)).toMatchObject(refused(2, /longer than 250,000 letters/));
    expect(read(','.repeat(300_000))).toMatchObject(refused(1, /longer than 250,000 letters/));
  });

  it('lines and rows', () => {
    expect(read(`case,rhexis\nA,60\n${'\n'.repeat(mostLines)}`)).toMatchObject({
      layout: null,
      problems: [{ why: expect.stringMatching(/more than 1,048,576 lines.*by parts/) }],
    });
    const long = `case,rhexis\n${lines(mostRows, () => 'A,60').join('\n')}`;
    expect(read(long)).toMatchObject(refused(mostRows + 1, /more than 300,000 rows.*by parts/));
  });

  it('names in the column of steps: it is another column, to be chosen', () => {
    const rows = (count: number) => `case_id,step,seconds\n${lines(count, (at) => `A,made-up ${at},20`).join('\n')}`;
    const most = read(`${rows(mostLabels - 1)}\nA,Rhexis,20`);
    expect(most.cases).toHaveLength(1);
    const more = read(rows(mostLabels + 1));
    expect(more).toMatchObject({
      ...refused(null, /1001 different names under "step"; at most 1000 are read/),
      problems: [{ column: 'step', weight: 'refused' }],
    });
    expect(more.mapping.map(({ from }) => from)).toEqual(['case_id', 'step', 'seconds']);
  });
});

describe('very many problems', () => {
  it('are counted in full and listed up to a limit, by row', () => {
    const count = problemsListed + 50;
    const reading = read(`case_id,step,seconds\nA,Rhexis,30\n${lines(count, () => 'A,Hydro,x').join('\n')}`);
    expect(reading).toMatchObject({ rowsIn: count + 1, rowsTaken: 1, rowsNamed: count });
    expect(reading.counted).toEqual({ refused: count, queried: 0 });
    expect(reading.problems.map(({ row }) => row)).toEqual(lines(problemsListed, () => '').map((_, at) => at + 3));
  });
});

describe('a long text read by parts', () => {
  it('gives the cells that Papa Parse gives of the whole', () => {
    const text = lines(9_000, (at) => `K${at},"a ""quoted""\r\ncell, ${'x'.repeat(1 + (at % 70))}",${at}`).join('\r\n');
    const whole = Papa.parse<string[]>(text, { delimiter: ',' }).data;
    const sheet = atOnce(cellsOf(text));
    expect('rows' in sheet && sheet.rows.map(({ cells }) => cells)).toEqual(whole);
    expect('rows' in sheet && sheet.rows.map(({ row }) => row)).toEqual(whole.map((_, at) => at + 1));
  });

  it('signs of more than one byte that a part ends in', () => {
    const note = 'é'.repeat(40_000);
    const rows = lines(15, (at) => `K${at},${60 + at},${at % 2 === 0 ? 'x' : ''}${note}`);
    const text = ['case,rhexis,note', ...rows].join('\n');
    expect(readBytes(new TextEncoder().encode(text))).toEqual(read(text));
    const narrow = Uint8Array.from(text, (sign) => sign.charCodeAt(0));
    expect(readBytes(narrow)).toEqual(read(text));
  });

  it('an opened quotation mark that is never closed', () => {
    const rows = lines(20_000, (at) => `K${at},${60 + (at % 40)},fine and long enough`);
    const reading = read(['case,rhexis,note', 'K,60,"5 mm', ...rows].join('\n'));
    expect(reading.cases).toHaveLength(20_001);
    expect(reading.problems).toMatchObject([{ row: 2, weight: 'queried', why: expect.stringMatching(/never closed/) }]);
  });
});
