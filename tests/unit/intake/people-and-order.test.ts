import { describe, expect, it } from 'vitest';
import type { Case } from '../../../src/lib/model';
import { codePointsToAPatient, readAudit, textPointsToAPerson } from '../../../src/lib/intake';
import { procedures } from './procedures';
import { lengths, question, read } from './reading';

describe('whose cases', () => {
  const text =
    'surgeon,case,step,seconds\nMiller,1,Rhexis,30\nMiller,1,Phaco,90\nMiller,2,Rhexis,31\nOkafor,1,Rhexis,20\nOkafor,2,Rhexis,21\nLind,1,Rhexis,22';

  it('asks who each surgeon is, and takes nobody silently', () => {
    const asked = read(text);
    expect(asked.questions.filter(({ mustAnswer }) => mustAnswer).map(({ id, guess }) => [id, guess])).toEqual([
      ['surgeon:Miller', 'me'],
      ['surgeon:Okafor', 'leave'],
      ['surgeon:Lind', 'leave'],
    ]);
    expect(asked).toMatchObject({ ready: false, rowsIn: 6, rowsTaken: 3, rowsNamed: 3 });
  });

  it('makes others R1, R2 and lets no name through', () => {
    const reading = read(text, {
      'surgeon:Miller': 'reference',
      'surgeon:Okafor': 'me',
      'surgeon:Lind': 'reference',
      agreed: 'yes',
    });
    expect(reading).toMatchObject({ ready: true, rowsTaken: 6, rowsNamed: 0 });
    expect(reading.cases.map(({ code }) => code)).toEqual(['1', '2']);
    expect(
      reading.references.map(({ reader, case: one }) => [reader, one.code, lengths(one, 'capsulorhexis')]),
    ).toEqual([
      ['R1', 'reference 1', [30]],
      ['R1', 'reference 2', [31]],
      ['R2', 'reference 3', [22]],
    ]);
    expect(JSON.stringify([reading.cases, reading.lists, reading.references])).not.toMatch(/Miller|Okafor|Lind/);
  });

  it('leaves others out when they have not agreed', () => {
    const reading = read(text, {
      'surgeon:Miller': 'me',
      'surgeon:Okafor': 'reference',
      'surgeon:Lind': 'leave',
      agreed: 'no',
    });
    expect(reading).toMatchObject({ references: [], rowsTaken: 3, rowsNamed: 3 });
    expect(reading.problems.every(({ value }) => value === null)).toBe(true);
  });

  it('does not ask about one surgeon, and knows "me"', () => {
    expect(read(text.replaceAll(/Okafor|Lind/g, 'Miller')).questions.some(({ id }) => id.startsWith('surgeon:'))).toBe(
      false,
    );
    expect(question(read(text.replaceAll('Lind', 'me')), 'surgeon:me')).toMatchObject({ guess: 'me' });
  });

  it('guesses nobody to be me in a record that has own cases, and asks about one name too', () => {
    const [own] = read('case,step,seconds\nX9,Rhexis,30').cases;
    if (!own) throw new Error('no case');
    const { row: _row, list: _list, ...rest } = own;
    const mine: Case = {
      ...rest,
      id: 'case-1',
      listId: null,
      factChanges: [],
      leftOut: null,
      keptAsItIs: null,
      source: { kind: 'typed' },
      invented: false,
      version: 1,
      history: [],
    };
    const one = text.replaceAll(/Okafor|Lind/g, 'Miller');
    const asked = (of: string, existing: Case[]) =>
      read(of, {}, existing).questions.flatMap(({ id, guess }) => (id.startsWith('surgeon:') ? [[id, guess]] : []));
    expect(asked(text, [mine]).map(([, guess]) => guess)).toEqual(['leave', 'leave', 'leave']);
    expect(asked(one, [mine])).toEqual([['surgeon:Miller', 'leave']]);
    expect(read(one, {}, [mine])).toMatchObject({ ready: false, cases: [] });
    expect(asked(one, [{ ...mine, invented: true }])).toEqual([]);
    expect(asked(one.replaceAll('Miller', 'me'), [mine])).toEqual([]);
  });

  it('never takes it for granted that the others agreed', () => {
    const reading = read(text, { 'surgeon:Miller': 'me', 'surgeon:Okafor': 'reference', 'surgeon:Lind': 'leave' });
    expect(question(reading, 'agreed')).toMatchObject({ guess: 'no', mustAnswer: true, answered: false });
    expect(reading).toMatchObject({ ready: false, references: [] });
  });
});

describe('what points to a patient', () => {
  it('is not read, and named without being repeated', () => {
    const reading = read('case,Surname,DOB,MRN,Age,rhexis,phaco\n1,Smith,01/02/1943,4471120,81,60,100');
    expect(reading.problems.map(({ column, value, weight }) => [column, value, weight])).toEqual([
      ['Surname', null, 'refused'],
      ['DOB', null, 'refused'],
      ['MRN', null, 'refused'],
    ]);
    expect(reading.cases).toHaveLength(1);
    expect(JSON.stringify(reading)).not.toMatch(/Smith|1943|4471120/);
    expect(reading.mapping.find(({ from }) => from === 'Age')).toMatchObject({ value: 'leave' });
  });

  it('gives new codes where the only id is a patient’s', () => {
    const reading = read(
      'Hospital No,step,seconds\n4471120,Rhexis,30\n4471120,Phaco,90\n4471121,Rhexis,31\n4471120,Rhexis,40',
    );
    expect(question(reading, 'codes')).toMatchObject({ guess: 'new', mustAnswer: true });
    // The number that comes again with the same step is a second operation (the other eye).
    expect(reading.cases.map(({ code, stretches }) => [code, stretches.length])).toEqual([
      ['C1', 2],
      ['C2', 1],
      ['C3', 1],
    ]);
    expect(JSON.stringify(reading)).not.toContain('447112');
    expect(reading).toMatchObject({ ready: false, rowsTaken: 4, rowsNamed: 0 });
  });

  it('asks about codes that look like a patient’s, and keeps own ones when told', () => {
    const text = 'case,rhexis,phaco\n20250301,60,100\n20250308,61,101';
    expect(read(text).cases.map(({ code }) => code)).toEqual(['C1', 'C2']);
    expect(read(text, { codes: 'keep' }).cases.map(({ code }) => code)).toEqual(['20250301', '20250308']);
  });

  it('never offers to keep names, but own numbers under a patient’s heading', () => {
    const options = (text: string) => question(read(text), 'codes')?.options.map(({ value }) => value);
    expect(options('Patient name,rhexis,phaco\nSmith,60,100')).toEqual(['new']);
    expect(options('Hospital No,rhexis,phaco\n4471120,60,100')).toEqual(['new']);
    expect(options('Patient no,rhexis,phaco\n7,60,100')).toEqual(['new', 'keep']);
  });

  it('gives no code twice', () => {
    const existing = read('case,rhexis,phaco\nC1,60,100').cases.map((one): Case => ({
      ...one,
      id: 'case-1',
      listId: null,
      factChanges: [],
      leftOut: null,
      keptAsItIs: null,
      source: { kind: 'typed' },
      invented: false,
      version: 1,
      history: [],
    }));
    const reading = read('rhexis,phaco\n61,101', {}, existing);
    expect(reading.cases).toMatchObject([{ code: 'C2', sequence: 2 }]);
    expect(reading.known).toEqual([]);
  });

  it.each([
    '4471120',
    '943 476 5919',
    '943-476-5919',
    'H123456',
    'Smith, John',
    'John Smith',
    'Mr Smith',
    'a@b.org',
    '01/02/1943',
  ])('code %s', (code) => {
    expect(codePointsToAPatient(code)).toBe(true);
  });
  it.each(['1', 'A17', 'V269', 'L3-2', '000123', 'case 12', 'Op 104', 'F031', '2025-104'])('own code %s', (code) => {
    expect(codePointsToAPatient(code)).toBe(false);
  });
  it.each(['Mrs Jones was restless', 'asked Dr Patel', 'call 07700900123', 'x@y.org', 'Anna Berg'])(
    'text %s',
    (text) => {
      expect(textPointsToAPerson(text)).toBe(true);
    },
  );
  it.each(['Regrasped four times', 'small pupil', 'Slow start, deep orbit', 'Main Incision leaked at 12'])(
    'text without a person: %s',
    (text) => {
      expect(textPointsToAPerson(text)).toBe(false);
    },
  );
});

describe('order and lists', () => {
  it('asks about a day that lies ahead and takes it as written; without a clock nothing is asked', () => {
    const text = 'case,date,rhexis,phaco\nA,2026-11-26,60,100\nB,2026-11-28,61,101\nC,2027-01,62,102';
    const at = (today?: string) =>
      readAudit({ text, fileName: 'x.csv', procedures, ...(today === undefined ? {} : { today }) });
    // A day in hand: somewhere it is tomorrow already.
    expect(at('2026-11-25').problems).toMatchObject([
      { row: 3, column: 'date', value: '2026-11-28', weight: 'queried' },
      { row: 4, column: 'date', value: '2027-01', weight: 'queried' },
    ]);
    expect(at('2026-11-25').lists.map(({ when }) => when)).toEqual(at().lists.map(({ when }) => when));
    expect(at('2027-02-01').problems).toEqual([]);
    expect(at().problems).toEqual([]);
  });

  it('keeps the order of the rows of an undated file, or turns it round, or knows none', () => {
    const text = 'case,rhexis,phaco\nA,60,100\nB,61,101\nC,62,102';
    expect(read(text).cases.map(({ code, sequence, orderKnown, list }) => [code, sequence, orderKnown, list])).toEqual([
      ['A', 1, true, null],
      ['B', 2, true, null],
      ['C', 3, true, null],
    ]);
    expect(read(text, { order: 'newest-first' }).cases.map(({ code }) => code)).toEqual(['C', 'B', 'A']);
    expect(read(text, { order: 'none' }).cases.every(({ orderKnown }) => !orderKnown)).toBe(true);
    expect(question(read('case,rhexis,phaco\n3,60,100\n2,61,101\n1,62,102'), 'order')).toMatchObject({
      guess: 'newest-first',
    });
  });

  it('makes no place of a code 0 where codes are places in a list', () => {
    const { cases } = read('case,rhexis,phaco\n0,60,100\n1,61,101\n0,62,102\n1,63,103', { repeats: 'places' });
    expect(cases.map(({ position }) => position)).toEqual([null, 1, null, 1]);
  });

  it('goes by date, then list, then place', () => {
    const reading = read(
      'case,date,list,position,rhexis,phaco\nD,08/03/2025,1,1,60,100\nC,01/03/2025,2,1,60,100\nB,01/03/2025,1,2,60,100\nA,01/03/2025,1,1,60,100\nE,2025-03-20,Mr Brown,1,60,100',
    );
    expect(question(reading, 'date-order')).toMatchObject({ guess: 'dmy' });
    expect(question(reading, 'order')).toBeUndefined();
    expect(reading.cases.map(({ code, list, position }) => [code, list, position])).toEqual([
      ['C', 'L1', 1],
      ['A', 'L2', 1],
      ['B', 'L2', 2],
      ['D', 'L3', 1],
      ['E', 'L4', 1],
    ]);
    expect(reading.lists.map(({ label, when }) => [label, when])).toEqual([
      ['2', { kind: 'date', date: '2025-03-01' }],
      ['1', { kind: 'date', date: '2025-03-01' }],
      ['1', { kind: 'date', date: '2025-03-08' }],
      [null, { kind: 'date', date: '2025-03-20' }],
    ]);
    expect(reading.problems).toMatchObject([{ column: 'list', weight: 'queried' }]);
    expect(JSON.stringify(reading.lists)).not.toContain('Brown');
  });

  it('makes a day a list where lists have no name, but not a month', () => {
    const days = read('case,date,rhexis,phaco\nA,2025-03-01,60,100\nB,2025-03-01,60,100\nC,2025-03-08,60,100');
    expect(days.cases.map(({ list }) => list)).toEqual(['L1', 'L1', 'L2']);
    expect(read('case,month,rhexis,phaco\nA,2025-03,60,100\nB,2025-04,60,100').cases.map(({ list }) => list)).toEqual([
      null,
      null,
    ]);
    expect(
      read('case,list,rhexis,phaco\nA,7,60,100\nB,8,60,100').lists.map(({ label, when }) => [label, when]),
    ).toEqual([
      ['7', { kind: 'number', number: 7 }],
      ['8', { kind: 'number', number: 8 }],
    ]);
  });

  it.each([
    ['2025-03-31', '2025-03-31'],
    ['2025/3/31', '2025-03-31'],
    ['31.03.2025', '2025-03-31'],
    ['31/3/25', '2025-03-31'],
    ['3/31/2025', '2025-03-31'],
    ['31 March 2025', '2025-03-31'],
    ['Mar 31, 2025', '2025-03-31'],
    ['31-Mar-25', '2025-03-31'],
    ['45747', '2025-03-31'],
    ['20250331', '2025-03-31'],
    ['2025-03-31 08:15', '2025-03-31'],
  ])('reads the date %s', (text, date) => {
    expect(read(`case,date,rhexis,phaco\nA,"${text}",60,100`).lists[0]?.when).toEqual({ kind: 'date', date });
  });

  it('names a date that is none, and takes the case without it', () => {
    for (const text of ['31/31/2025', '2025-02-30', 'yesterday', '1/2', '1850-01-01']) {
      const reading = read(`case,date,rhexis,phaco\nA,${text},60,100`);
      expect(reading.problems).toMatchObject([{ row: 2, column: 'date', value: text, weight: 'refused' }]);
      expect(reading.cases).toMatchObject([{ list: null }]);
    }
  });
});

describe('codes already in the record', () => {
  const stored = (text: string): Case[] =>
    read(text).cases.map((one, index): Case => {
      const { row: _row, list: _list, ...rest } = one;
      return {
        ...rest,
        id: `case-${index + 1}`,
        listId: null,
        factChanges: [],
        leftOut: null,
        keptAsItIs: null,
        source: { kind: 'typed' },
        invented: false,
        version: 1,
        history: [],
      };
    });

  it('are known again, and differences shown old beside new', () => {
    const before = stored('case,nucleus,rhexis,phaco\nA,2,60,100\nB,2,61,101');
    expect(read('case,nucleus,rhexis,phaco\nA,2,60,100\nB,3,65,101\nC,2,62,102', {}, before).known).toEqual([
      {
        code: 'A',
        row: 2,
        caseId: 'case-1',
        same: true,
        conflicts: false,
        filled: null,
        closed: false,
        eventStays: false,
        differences: [],
      },
      {
        code: 'B',
        row: 3,
        caseId: 'case-2',
        same: false,
        conflicts: true,
        filled: null,
        closed: false,
        eventStays: false,
        differences: [
          { what: 'Capsulorhexis', before: '61 s', after: '65 s' },
          { what: 'Nucleus', before: 'medium', after: 'hard' },
        ],
      },
    ]);
  });
});

describe('facts of the eye in a second file', () => {
  const join = (
    facts: string,
    text = 'surgeon,case,nucleus,rhexis,phaco\nA,1,,60,100\nA,2,soft,61,101\nB,1,,50,90\nB,7,,51,91',
  ) =>
    readAudit({
      text,
      fileName: 'x.csv',
      procedures,
      choices: { 'surgeon:A': 'me', 'surgeon:B': 'reference', agreed: 'yes' },
      facts: { text: facts },
    });

  it('are joined by code, to own cases first, and to those of the reference', () => {
    const reading = join('case_id;nucleus;pupil;still\n1;hard;small;yes\n2;soft;;no\n7;white;;');
    expect(reading.problems).toEqual([]);
    expect(reading.cases.map(({ facts }) => facts)).toEqual([
      { nucleus: 'hard', pupil: 'small', still: true },
      { nucleus: 'soft', still: false },
    ]);
    expect(reading.references.map(({ case: one }) => one.facts)).toEqual([{}, { nucleus: 'white' }]);
  });

  it('name what does not fit, and keep what the file of times says', () => {
    const reading = join('case_id,nucleus,Surname\n2,hard,Smith\n9,soft,Jones\n1,jelly,Ray\n1,soft,Ray\n1,hard,Ray');
    expect(reading.cases.map(({ facts }) => facts)).toEqual([{ nucleus: 'soft' }, { nucleus: 'soft' }]);
    expect(reading.problems.map(({ row, column, value }) => [row, column, value])).toEqual([
      [null, 'nucleus', 'hard'],
      [1, 'Surname', null],
      [3, 'case_id', '9'],
      [4, 'nucleus', 'jelly'],
      [6, 'nucleus', 'hard'],
    ]);
    expect(reading.problems.every(({ why }) => why.startsWith('In the file of facts: '))).toBe(true);
    expect(JSON.stringify(reading)).not.toMatch(/Smith|Jones|Ray/);
    expect(reading.rowsIn).toBe(4);
  });

  it('are not joined where there is nothing to join by', () => {
    expect(join('nucleus\nhard').problems).toMatchObject([{ row: 1, why: expect.stringMatching(/case_id is needed/) }]);
    expect(join('case_id,nucleus\n1,hard', 'Hospital No,rhexis,phaco\n1,60,100').problems.at(-1)?.why).toMatch(
      /new codes/,
    );
    expect(join('%PDF-1.7').problems).toMatchObject([
      { why: expect.stringMatching(/In the file of facts: This is a picture/) },
    ]);
  });
});
