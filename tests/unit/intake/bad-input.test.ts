import { describe, expect, it } from 'vitest';
import { procedures } from './procedures';
import { readAudit } from '../../../src/lib/intake';
import { plainCase, read, readBytes } from './reading';

const heading = 'case_id,step,start_s,end_s';
const utf16 = (text: string, order: 'little' | 'big', mark = true): Uint8Array => {
  const units = [...(mark ? [0xfeff] : []), ...Array.from(text, (sign) => sign.charCodeAt(0))];
  const view = new DataView(new ArrayBuffer(units.length * 2));
  units.forEach((unit, index) => view.setUint16(index * 2, unit, order === 'little'));
  return new Uint8Array(view.buffer);
};

describe('what cannot be read is named, with row, column, value and what to do', () => {
  const nothing = {
    layout: null,
    cases: [],
    lists: [],
    references: [],
    rowsIn: 0,
    rowsTaken: 0,
    rowsNamed: 0,
    ready: false,
  };

  it('an empty file', () => {
    for (const text of ['', '\n\n', '  \n', '\uFEFF'])
      expect(read(text)).toMatchObject({
        ...nothing,
        problems: [{ row: null, column: null, value: null, why: expect.stringMatching(/empty/) }],
      });
    expect(readBytes(new Uint8Array())).toMatchObject(nothing);
  });

  it('a heading and nothing under it', () => {
    expect(read(`${heading}\n`)).toMatchObject({
      ...nothing,
      problems: [{ why: expect.stringMatching(/no rows under/) }],
    });
    expect(read('case,rhexis,phaco')).toMatchObject({
      ...nothing,
      problems: [{ why: expect.stringMatching(/no rows under/) }],
    });
  });

  it('a picture named .csv, a workbook, a PDF', () => {
    const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48]);
    expect(readBytes(png, 'times.csv')).toMatchObject({
      ...nothing,
      problems: [{ why: expect.stringMatching(/picture \(PNG\).*CSV/s) }],
    });
    expect(readBytes(new Uint8Array([0x50, 0x4b, 3, 4, 20, 0]))).toMatchObject({
      problems: [{ why: expect.stringMatching(/workbook/) }],
    });
    expect(readBytes(new TextEncoder().encode('%PDF-1.7 …'))).toMatchObject({
      problems: [{ why: expect.stringMatching(/PDF/) }],
    });
    // The same picture, decoded by somebody who took it for text.
    expect(read('\uFFFDPNG\r\n\u001a\n\0\0\0')).toMatchObject({
      ...nothing,
      problems: [{ why: expect.stringMatching(/picture/) }],
    });
  });

  it('headings nobody knows, or none', () => {
    expect(read('a,b,c\n1,2,3')).toMatchObject({
      ...nothing,
      problems: [{ row: 1, value: 'a · b · c', why: expect.stringMatching(/case_id, step/) }],
    });
    expect(read('just some words')).toMatchObject(nothing);
    expect(read('step,seconds\nRhexis,30')).toMatchObject({
      layout: null,
      problems: [{ column: 'case_id', why: expect.stringMatching(/code of your own/) }],
    });
  });

  it.each([
    ['A1,Rhexis,50,20', 'end_s', '20', /before the start/],
    ['A1,Rhexis,20,20', 'end_s', '20', /no length/],
    ['A1,Rhexis,1:75,2:30', 'start_s', '1:75', /75 seconds/],
    ['A1,Rhexis,-5,20', 'start_s', '-5', /below zero/],
    ['A1,Rhexis,5,x', 'end_s', 'x', /not a time/],
    ['A1,Rhexis,5,', 'end_s', '', /only one of start and end/],
    ['A1,Rhexis,5,9000', 'end_s', '9000', /two hours/],
    ['A1,Rhexis,,', 'end_s', '', /no time in this row/],
    ['A1,,5,20', 'step', '', /names no step/],
    ['A1,Flourish,5,20', 'step', 'Flourish', /No step of phaco.*"Flourish"/],
    [',Rhexis,5,20', 'case_id', '', /no case/],
    ['Mean,Rhexis,5,20', null, 'Mean', /is not a case/],
    ['SD,Rhexis,5,20', null, 'SD', /is not a case/],
    ['Total (s),,5,20', null, 'Total (s)', /is not a case/],
    ['case_id,step,start_s,end_s', null, null, /repeats the headings/],
  ])('%s', (row, column, value, why) => {
    const reading = read(`${heading}\n${plainCase('A0')}\n${row}`);
    expect(reading.problems).toEqual([{ row: 12, column, value, why: expect.stringMatching(why), weight: 'refused' }]);
    expect(reading).toMatchObject({ rowsIn: 11, rowsTaken: 10, rowsNamed: 1 });
    // A name no step has must be answered first: its times would be gone by a guess.
    expect(reading.ready).toBe(value !== 'Flourish');
    expect(reading.cases.map(({ code }) => code)).toEqual(['A0']);
  });

  it('a bad cell of a case leaves the rest of it', () => {
    const reading = read('case,rhexis,phaco\n1,1:75,100\n2,-3,101\n3,60,102');
    expect(reading.problems.map(({ row, column, value, weight }) => [row, column, value, weight])).toEqual([
      [2, 'rhexis', '1:75', 'refused'],
      [3, 'rhexis', '-3', 'refused'],
    ]);
    expect(reading.cases.map(({ stretches }) => stretches.length)).toEqual([1, 1, 2]);
    expect(reading).toMatchObject({ rowsIn: 3, rowsTaken: 3, rowsNamed: 0 });
  });

  it('a case of which nothing can be read', () => {
    const reading = read('case,rhexis,phaco\n1,x,y\n2,60,102\n3,,');
    expect(reading).toMatchObject({ rowsIn: 3, rowsTaken: 1, rowsNamed: 2 });
    expect(reading.problems.filter(({ row, column }) => column === null && row !== null).map(({ row }) => row)).toEqual(
      [2, 4],
    );
  });

  it('two cases with one code', () => {
    const rows = read('case,rhexis,phaco\nA,60,100\nB,61,101\nA,62,102');
    expect(rows.problems).toMatchObject([
      { row: 4, column: 'case', value: 'A', why: expect.stringMatching(/Two cases have the code "A".*row 2/) },
    ]);
    expect(rows).toMatchObject({ rowsIn: 3, rowsTaken: 2, rowsNamed: 1 });
    const stretches = read(`${heading}\n${plainCase('A')}\n${plainCase('B')}\n${plainCase('A')}`);
    expect(stretches.cases.map(({ code, stretches: all }) => [code, all.length])).toEqual([
      ['A', 10],
      ['B', 10],
    ]);
    expect(stretches).toMatchObject({ rowsIn: 30, rowsTaken: 20, rowsNamed: 10 });
    const otherDay = read('case_id,date,step,seconds\nA,2025-03-01,Rhexis,30\nA,2025-03-08,Rhexis,40');
    expect(otherDay).toMatchObject({ rowsTaken: 1, rowsNamed: 1 });
  });

  it('rows of one case sorted by step are one case', () => {
    const rows = plainCase('A')
      .split('\n')
      .flatMap((row) => [row, row.replace(/^A/, 'B')]);
    expect(read([heading, ...rows].join('\n')).cases.map(({ stretches }) => stretches.length)).toEqual([10, 10]);
  });

  it('a mean row at the bottom, whatever it is called', () => {
    for (const name of [
      'mean',
      'Mean',
      'MEAN (s)',
      'Average',
      'avg',
      'SD',
      'Std dev',
      'Median',
      'Total',
      'Sum',
      'Min',
      'max',
      'n',
      'Average time',
    ]) {
      const reading = read(`case,rhexis,phaco\n1,60,100\n2,61,101\n${name},60.5,100.5`);
      expect(reading.cases).toHaveLength(2);
      expect(reading.problems).toMatchObject([{ row: 4, value: name, weight: 'refused' }]);
    }
    // Under an empty code, and with only its name.
    expect(read('case,rhexis,phaco\n1,60,100\n,Mean,100.5').problems).toMatchObject([{ row: 3, value: 'Mean' }]);
  });

  it('an opened quotation mark that is never closed', () => {
    const reading = read('case,rhexis,note\n1,60,"5 mm\n2,61,fine\n3,62,fine');
    expect(reading.cases).toHaveLength(3);
    expect(reading.problems).toMatchObject([{ weight: 'queried', why: expect.stringMatching(/quotation mark/) }]);
  });

  it('a quotation mark too many, that swallows rows up to the next one', () => {
    const reading = read('case_id,step,seconds\nA,Rhexis,60\nA,"Hydro,20\nB,Rhexis,61\nB,"Hydro",21\nC,Rhexis,62');
    const asked = reading.problems.find(({ weight }) => weight === 'queried');
    expect(asked).toMatchObject({ row: 3, why: expect.stringMatching(/quotation mark is probably missing/) });
    // A note over several lines is a note, whatever signs are in it.
    const note = read('case,rhexis,phaco,note\nA,60,90,"soft, then\nhard, at last"\nB,61,91,fine');
    expect(note.problems).toEqual([]);
  });

  it('a cell as long as a file, repeated by no sentence', () => {
    const long = 'x'.repeat(50_000);
    const reading = read(`case_id,step,seconds\nA,Rhexis,60\nA,${long},20`);
    expect(reading.problems).toMatchObject([{ row: 3, value: long }]);
    for (const { why } of reading.problems) expect(why.length).toBeLessThan(300);
    for (const { question } of reading.questions) expect(question.length).toBeLessThan(300);
  });

  it('another procedure among the rows', () => {
    const text =
      'case_id,procedure,step,seconds\nA,phaco,Rhexis,30\nB,MSICS,Tunnel,90\nC,squint,Rhexis,30\nA,sics,Tunnel,80';
    const reading = read(text);
    expect(reading.cases.map(({ code, procedureId }) => [code, procedureId])).toEqual([
      ['A', 'phaco'],
      ['B', 'sics'],
    ]);
    expect(reading.problems.map(({ row, column, value }) => [row, column, value])).toEqual([
      [4, 'procedure', 'squint'],
      [5, 'procedure', 'sics'],
    ]);
    expect(reading).toMatchObject({ rowsIn: 4, rowsTaken: 2, rowsNamed: 2 });
    expect(read('case,procedure,rhexis,phaco\n1,phaco,60,90\n2,sics,70,100')).toMatchObject({
      rowsTaken: 1,
      rowsNamed: 1,
    });
  });
});

describe('files in the encodings people have', () => {
  const text = 'case;step;Länge (s)\nä1;Kapsulorhexis – Öffnung;83,5\nä1;Hydro;40\n';
  const found = (bytes: Uint8Array) => {
    const reading = readAudit({
      bytes,
      fileName: 'x.csv',
      procedures,
      choices: { 'column:lange s': 'own:seconds', 'label:kapsulorhexis offnung': 'step:capsulorhexis' },
    });
    return [reading.cases[0]?.code, reading.cases[0]?.stretches.map(({ seconds }) => seconds)];
  };
  const narrow = (wide: string) => Uint8Array.from(wide, (sign) => (sign === '–' ? 0x96 : sign.charCodeAt(0)));

  it.each([
    ['UTF-8', new TextEncoder().encode(text)],
    ['UTF-8 with its mark', new TextEncoder().encode(`\uFEFF${text}`)],
    ['UTF-16, little end first', utf16(text, 'little')],
    ['UTF-16, big end first', utf16(text, 'big')],
    ['Windows-1252', narrow(text)],
    ['UTF-8 with old Mac line ends', new TextEncoder().encode(text.replaceAll('\n', '\r'))],
    ['UTF-8 with Windows line ends', new TextEncoder().encode(text.replaceAll('\n', '\r\n'))],
  ])('%s', (_, bytes) => {
    expect(found(bytes)).toEqual(['ä1', [83.5, 40]]);
  });

  it('UTF-16 without its mark', () => {
    expect(readBytes(utf16('case,rhexis,phaco\n1,60,100\n', 'little', false)).cases).toHaveLength(1);
    expect(readBytes(utf16('case,rhexis,phaco\n1,60,100\n', 'big', false)).cases).toHaveLength(1);
  });

  it('comma, semicolon, tab; pasted cells; a cell with a line break', () => {
    for (const sign of [',', ';', '\t'])
      expect(read(['case', 'rhexis', 'phaco'].join(sign) + `\n1${sign}60${sign}100`).cases).toHaveLength(1);
    expect(read('sep=;\ncase;rhexis\n1;60').cases[0]?.row).toBe(2);
    expect(read('case\trhexis\tphaco\r\n1\t60,5\t100\r\n').cases[0]?.stretches[0]?.seconds).toBe(60.5);
    const broken = read('case,"rhexis\n(s)",phaco\n1,60,100\n2,"61\n",x');
    expect(broken.cases[1]?.stretches).toMatchObject([{ stepId: 'capsulorhexis', seconds: 61 }]);
    expect(broken.problems).toMatchObject([{ row: 3, column: 'phaco', value: 'x' }]);
  });
});
