import { describe, expect, it } from 'vitest';
import { readAudit, withoutPeople } from '../../../src/lib/intake';
import { atOnce, bundled } from '../../../src/lib/turns';
import { procedures } from './procedures';

const SAID = { ownCodes: false, known: new Set<string>() };
const without = (text: string, said: typeof SAID = SAID) => atOnce(bundled(withoutPeople(text, procedures, said)));
const reading = (text: string, choices: Record<string, string> = {}) =>
  readAudit({ text, fileName: 'a.csv', procedures, choices });

/** What a page shows of a reading, but for the codes and names that were replaced. */
const shown = (text: string, choices: Record<string, string> = {}) => {
  const { cases, problems, questions, rowsIn, rowsTaken, rowsNamed, mapping } = reading(text, choices);
  return { cases, problems, questions: questions.map(({ id }) => id), rowsIn, rowsTaken, rowsNamed, mapping };
};

const NAMES = ['Anna Huber', 'Brown, Peter', 'Kowalska Maria'];
const ROWS = NAMES.map(
  (name, at) => `C${at + 1};${name};${30412 + at}7;0${at + 1}.04.1951;${70 + at},5;28;keine;"ruhig\n""gut"""`,
);
const FILE = ['Liste vom Montag', '', 'Fall Nr;Patientenname;MRN;Geburtsdatum;Rhexis;Hydro;Komplikation;Bemerkung', ...ROWS, 'Mittelwert;;;;71;28;;'].join('\n'); // prettier-ignore

describe('a file that waits to be taken', () => {
  it('holds nothing of columns that point to a person, and reads as it did', () => {
    const { text, out } = without(FILE);
    expect(out).toEqual({ columns: ['Patientenname', 'MRN', 'Geburtsdatum'], rows: [], codes: null });
    for (const name of NAMES) expect(text).not.toContain(name.slice(0, 5));
    expect(text).not.toMatch(/1951|3041/);
    expect(shown(text)).toEqual(shown(FILE));
    expect(reading(text).rowsIn).toBe(5);
  });

  it('with nothing of the kind in it comes back letter by letter', () => {
    const plain = 'case_id,list,capsulorhexis,event\r\nA1,1,61.5,none\r\n\r\n"A,2",1,"75","=x"\r\n';
    expect(without(plain).text).toBe(plain);
    expect(without('WEBVTT\n\n00:01.000 --> 00:09.000\nRhexis').text).toMatch(/^WEBVTT/);
    expect(without('').text).toBe('');
  });

  it('holds no remark that names somebody where nobody reads the column, and no other cell is touched', () => {
    const rows = Array.from(
      { length: 12 },
      (_, at) => `A${at},60,28,${at === 4 ? 'seen by Dr Anna Huber' : `remark ${at}`}`,
    );
    const { text, out } = without(['case_id,rhexis,hydro,comment', ...rows].join('\n'));
    expect(out).toEqual({ columns: [], rows: [6], codes: null });
    expect(text).not.toContain('Huber');
    expect(text).toContain('remark 5');
    const mostly = rows.map((row, at) => (at % 2 ? row : row.replace(/[^,]+$/, `Dr Huber ${'abcdefghijkl'[at]}`)));
    expect(without(['case_id,rhexis,hydro,comment', ...mostly].join('\n')).out.columns).toEqual(['comment']);
  });

  it('holds no name in a title or where nothing was understood', () => {
    expect(without(`Audit of Dr Anna Huber\ncase_id,rhexis\nA1,60`)).toMatchObject({
      text: 'sep=,\n…\ncase_id,rhexis\nA1,60',
      out: { rows: [1] },
    });
    const { text, out } = without('thing;Patient name\nx1;Huber\nx2;Brown');
    expect([text, out.columns]).toEqual(['sep=;\nthing;Patient name\nx1;…\nx2;…', ['Patient name']]);
  });

  it('gives surgeons numbers, but for one who is called me, a role or a letter; their names stand beside, not in the text', () => {
    const names = ['Huber', 'me', 'huber', 'Dr Peter Brown', 'consultant', 'B'];
    const { text, surgeons } = without(['case_id,surgeon,rhexis', ...names.map((name, at) => `A${at},${name},60`)].join('\n')); // prettier-ignore
    expect(text.split('\n').slice(2).map((row) => row.split(',')[1])).toEqual(['surgeon 1', 'me', 'surgeon 1', 'surgeon 2', 'consultant', 'B']); // prettier-ignore
    expect([...surgeons]).toEqual([
      ['surgeon 1', 'Huber'],
      ['surgeon 2', 'Dr Peter Brown'],
    ]);
  });

  it('keeps words for hands and the keys of a list sheet, and numbers whoever is named there', () => {
    const hands = ['O', 'B capsulorhexis, IOL', 'resident', 'Kowalska', 'ich', 'T Zonulenring'];
    const { text, surgeons } = without(['case_id,hands,rhexis', ...hands.map((said, at) => `A${at},"${said}",60`)].join('\n')); // prettier-ignore
    expect(text).not.toContain('Kowalska');
    for (const said of hands.filter((each) => each !== 'Kowalska')) expect(text).toContain(said);
    expect([...surgeons]).toEqual([['person 1', 'Kowalska']]);
  });

  it('holds no code that could lead to a patient, and asks about the codes all the same', () => {
    const file = 'case no,step,seconds\n20417733,Rhexis,60\n20417733,Hydro,30\n20417799,Rhexis,65';
    const { text, out } = without(file);
    expect(out.codes).toBe('look');
    expect(text).not.toContain('2041');
    const { questions, cases } = reading(text, { codes: 'new' });
    expect(questions.find(({ id }) => id === 'codes')?.options.map(({ value }) => value)).toEqual(['new']);
    expect(cases.map(({ stretches }) => stretches.map(({ seconds }) => seconds))).toEqual([[60, 30], [65]]);
    expect(cases.map(({ code }) => code).join()).not.toMatch(/held/);
    // Said to be the surgeon's own, or in the record already, they stay.
    expect(without(file, { ...SAID, ownCodes: true }).text).toBe(file);
    expect(without(file, { ...SAID, known: new Set(['20417733', '20417799']) }).text).toBe(file);
    // A heading that names patients takes no such word.
    const named = file.replace('case no', 'Patient name');
    expect(without(named, { ...SAID, ownCodes: true }).out.codes).toBe('heading');
  });

  it('reads as it did with a mark that is never closed, blank lines and cells that begin like a formula', () => {
    const file = `case_id,name,rhexis,hydro\n\nA1,Huber,60,'=30\nA2,Brown,61,31\n\nA3,Mayer,62,"32`;
    expect(shown(without(file).text)).toEqual(shown(file));
  });
});
