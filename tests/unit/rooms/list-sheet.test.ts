import { describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/assess';
import { bringInView } from '../../../src/lib/rooms/bring-in/bring-in-view';
import { importBatch, importPlan } from '../../../src/lib/rooms/bring-in/import-plan';
import { listSheet, listSheetCsv, sheetListOf } from '../../../src/lib/rooms/lists/list-sheet';
import { readAudit } from '../../../src/lib/intake';
import type { Case, ListRecord } from '../../../src/lib/model';
import { loadProcedures } from '../../../src/lib/server/content/library';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { aCase, aList } from '../../made-up/record';

const procedures = loadProcedures();
const phaco = procedures.find(({ id }) => id === 'phaco')!;
const sheet = listSheet(phaco, 20);
const [headings = ''] = listSheetCsv(sheet, []).split('\n');
/** Place, own code, nucleus, pupil, still, anything else, hands, event; list, date, procedure. */
const filled = (...rows: string[]) => [headings, ...rows].join('\n');
const read = (text: string, existing: readonly Case[] = [], choices: Record<string, string> = {}) =>
  readAudit({ text, fileName: 'sheet.csv', procedures, existing, choices });
/** As a list made by its codes has it: nothing is answered yet. */
const fresh = (n: number, over: Partial<Case> = {}): Case =>
  aCase(n, { procedureId: 'phaco', stretches: [], events: null, facts: {}, ...over });

describe('the list sheet', () => {
  it.each(procedures.map((procedure) => [procedure.id, procedure] as const))(
    '%s: no letter has two meanings, and 0 is none wherever it stands',
    (_, procedure) => {
      const { columns, more } = listSheet(procedure, 40);
      const keys = [...columns.flatMap((column) => column.keys), ...more].filter(({ key }) => key !== '…');
      const meanings = new Map<string, Set<string>>();
      for (const { key, label } of keys) meanings.set(key, (meanings.get(key) ?? new Set()).add(label));
      expect([...meanings].filter(([, of]) => of.size > 1)).toEqual([]);
      expect(keys.length).toBeGreaterThan(20);
    },
  );

  it('has a second sheet for the steps somebody notes, or for all of them', () => {
    expect(listSheet(phaco, 20, ['capsulorhexis']).steps).toEqual(['Capsulorhexis']);
    expect(listSheet(phaco, 20).steps.length).toBeGreaterThan(8);
  });
});

describe('the list sheet as a file', () => {
  it('has the headings of the printed sheet and no column for a time', () => {
    expect(headings.split(',')).toEqual([
      'Place',
      'Own code',
      ...sheet.columns.map(({ label }) => label),
      'List',
      'Date',
      'Procedure',
    ]);
    expect(headings).not.toMatch(/time|second|minute|start|end/i);
    expect(listSheetCsv(sheet, []).trim().split('\n')).toHaveLength(21);
  });

  it('carries places and codes of a list that is in the record', () => {
    const csv = listSheetCsv(sheet, [fresh(1, { position: 3 }), fresh(2)]);
    expect(csv.split('\n').slice(1)).toEqual([`3,A1${','.repeat(9)}phaco`, `2,A2${','.repeat(9)}phaco`, '']);
  });

  it('is read by its keys, letters and words', () => {
    const reading = read(
      filled(
        '1,K1,3,S,Y,FH,O,0',
        '2,K2,w,device used,no,0,S capsulorhexis; hydrodissection,E posterior capsule tear',
        '3,K3,,,,,T nucleus removal,',
      ),
    );
    expect(reading.layout).toBe('sheet');
    const [first, second, third] = reading.cases;
    const letters = sheet.more.flatMap(({ key }) => (key === 'F' || key === 'H' ? [key] : []));
    expect(letters).toHaveLength(2);
    expect(first).toMatchObject({ code: 'K1', position: 1, stretches: [], events: [] });
    expect(Object.values(first!.facts).filter((value) => value === true)).toHaveLength(3);
    expect(first!.facts).toMatchObject({ nucleus: 'hard', pupil: 'small' });
    expect(second).toMatchObject({
      facts: { nucleus: 'white', pupil: 'device' },
      hands: { whole: 'mine', steps: { capsulorhexis: 'someone-else', hydrodissection: 'someone-else' } },
      events: [{ kind: 'posterior-capsule-tear' }],
    });
    expect(third).toMatchObject({
      facts: {},
      hands: { whole: 'mine', steps: { 'nucleus-removal': 'taken-over' } },
      events: null,
    });
  });

  it('never takes an empty cell for an answer', () => {
    const [one] = read(filled('1,K1,2,,,,,')).cases;
    expect(Object.keys(one!.facts)).toEqual(['nucleus']);
    expect(one!.events).toBeNull();
  });

  it('names what is not a key, with row, column, value and what can stand there', () => {
    const { problems } = read(filled('1,K1,7,M,Y,QF,M,0'));
    expect(problems).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ row: 2, column: 'Nucleus', value: '7', weight: 'refused' }),
        expect.objectContaining({ row: 2, column: 'Anything else', value: 'QF' }),
      ]),
    );
    expect(problems.map(({ why }) => why).join(' ')).toMatch(/not a letter of the list\. 0 means none/);
  });

  it('counts a case as shared while S or T stand without a step, and says so', () => {
    const { cases, problems } = read(filled('1,K1,2,L,Y,0,S,0', '2,K2,2,L,Y,0,T,0'));
    expect(cases.map(({ hands }) => hands.whole)).toEqual(['shared', 'shared']);
    expect(problems.filter(({ column }) => column === 'Hands').map(({ row }) => row)).toEqual([2, 3]);
  });

  it('keeps an event of which nothing but E is said, and asks what it was', () => {
    const { cases, problems } = read(filled('1,K1,2,L,Y,0,M,E'));
    expect(cases[0]?.events).toMatchObject([{ kind: 'other' }]);
    expect(problems.find(({ column }) => column === 'Event')?.why).toMatch(/not which/);
  });

  it('takes or names every row: those left empty are named', () => {
    const reading = read(listSheetCsv(sheet, [fresh(1), fresh(2)]).replace('1,A1,,', '1,A1,2,'));
    expect(reading.rowsIn).toBe(2);
    expect(reading.rowsTaken).toBe(1);
    expect(reading.rowsNamed).toBe(1);
    expect(reading.problems.map(({ why }) => why).join()).toContain('Nothing is filled in');
  });

  it('is not taken for one where a column of times stands beside', () => {
    const reading = read('case_id,nucleus,pupil,event,capsulorhexis\nK1,2,L,none,62\n');
    expect(reading.layout).toBe('cases');
    expect(reading.cases[0]?.stretches).toHaveLength(1);
  });
});

describe('a sheet of cases that are in the record', () => {
  const record = { procedures, references: [], lists: [] };
  const text = filled('1,A1,2,L,Y,0,M,0', '2,A2,3,S,Y,0,M,0');

  it('fills in what was not entered without being asked, and shows it', () => {
    const reading = read(text, [fresh(1), fresh(2)]);
    const view = bringInView(reading, {}, record);
    expect(view.sentence).toMatch(/^Read as a list sheet, one row a case and no times, .*2 cases/);
    expect(view.notes.join(' ')).toContain('2 cases in the record get what was not entered before');
    expect(view.take).toBe('Fill in or replace 2 cases of the record');
    expect(view.known.changed.map(({ takeNew }) => takeNew)).toEqual([null, null]);
    const { replace, cases } = importBatch(importPlan(reading, {}), reading, '2026-04-01T00:00:00.000Z', () => false);
    expect(cases).toEqual([]);
    expect(replace.map((each) => [each.caseId, each.case.facts.nucleus, each.case.events])).toEqual([
      ['case-1', 'medium', []],
      ['case-2', 'hard', []],
    ]);
  });

  it('asks before anything that stands there changes', () => {
    const stored = [fresh(1, { facts: { nucleus: 'white' } }), fresh(2)];
    const view = bringInView(read(text, stored), {}, record);
    expect(view.known.changed.map(({ code, takeNew }) => [code, takeNew])).toEqual([
      ['A1', false],
      ['A2', null],
    ]);
    expect(view.known.changed[0]?.differences).toContain('Nucleus: white → medium');
  });

  it('fills in the rest of a row of which one value is disputed', () => {
    const reading = read(text, [fresh(1, { facts: { nucleus: 'white' } })]);
    const [kept] = importPlan(reading, {}).replace;
    expect(kept?.case).toMatchObject({ facts: { nucleus: 'white', pupil: 'large' }, events: [] });
    const [taken] = importPlan(reading, { known: 'new' }).replace;
    expect(taken?.case).toMatchObject({ facts: { nucleus: 'medium', pupil: 'large' }, events: [] });
  });

  it('says whose hands a step stands under now', () => {
    const stored = [fresh(1, { events: [] })];
    const [{ differences } = { differences: [] }] = read(filled('1,A1,,,,,S capsulorhexis,'), stored).known;
    expect(differences).toEqual([{ what: 'hands, Capsulorhexis', before: 'mine', after: 'someone else' }]);
  });

  it('drops no event, whatever is chosen about the other values', () => {
    const stored = [fresh(1, { facts: { nucleus: 'white' }, events: [] })];
    const reading = read(filled('1,A1,2,L,Y,0,M,E iris prolapse'), stored);
    const answers: Record<string, string>[] = [{}, { known: 'old' }, { 'known:case-1': 'old' }, { known: 'new' }];
    for (const choices of answers) {
      const [one] = importPlan(reading, choices).replace;
      expect(one?.case.events?.map(({ kind }) => kind)).toEqual(['iris-prolapse']);
    }
    const [{ differences } = { differences: [] }] = bringInView(reading, {}, record).known.changed;
    expect(differences.join('; ')).toMatch(/events: none → iris prolapse/i);
  });

  it('never moves a case to the place of its row on the sheet', () => {
    const [placed, unplaced] = read(text, [fresh(1, { position: 4 }), fresh(2)]).cases;
    expect(placed?.position).toBe(4);
    expect(unplaced?.position).toBe(2);
  });

  it('touches neither times nor what it does not speak of', () => {
    const timed = aCase(1, { procedureId: 'phaco', facts: { 'axial-length': 23.1 }, events: null });
    const [after] = read(filled('1,A1,2,,,,,'), [timed]).cases;
    expect(after).toMatchObject({ stretches: timed.stretches, facts: { 'axial-length': 23.1, nucleus: 'medium' } });
    expect(after?.events).toBeNull();
  });

  it('takes no event of the record away, nor its review', () => {
    const reviewed = { at: '2026-03-01T08:00:00.000Z', text: 'Irrigation first.' };
    const tear = {
      kind: 'posterior-capsule-tear',
      stepId: 'cortex-aspiration',
      serious: true,
      nearMiss: false,
      noticed: 'during',
      reviewed,
    } as const;
    const stored = [1, 2, 3].map((n) => fresh(n, { events: [tear] }));
    const rows = ['1,A1,2,L,Y,0,M,0', '2,A2,2,L,Y,0,M,E posterior capsule tear', '3,A3,2,L,Y,0,M,E iris prolapse'];
    const reading = read(filled(...rows), stored);
    expect(reading.cases.map(({ events }) => events?.map(({ kind, reviewed: text }) => [kind, text]))).toEqual([
      [[tear.kind, reviewed]],
      [[tear.kind, reviewed]],
      [
        [tear.kind, reviewed],
        ['iris-prolapse', null],
      ],
    ]);
    expect(reading.known.map(({ conflicts }) => conflicts)).toEqual([false, false, false]);
    expect(bringInView(reading, {}, record).notes.join(' ')).toContain('the record has one, which stays: A1.');
  });

  it('leaves a case that is kept as it is alone, takes the others, and says so', () => {
    const closed = { since: '2026-03-01T08:00:00.000Z', why: 'claim' };
    const reading = read(text, [fresh(1, { keptAsItIs: closed }), fresh(2)]);
    const answers: Record<string, string>[] = [{}, { known: 'new' }, { 'known:case-1': 'new' }];
    for (const choices of answers) {
      const view = bringInView(reading, choices, record);
      expect(view.notes.join(' ')).toContain('Kept as it is, so nothing of this file goes into it: A1.');
      expect(view.known.changed.map(({ code }) => code)).toEqual(['A2']);
      expect(importPlan(reading, choices).replace.map(({ caseId }) => caseId)).toEqual(['case-2']);
    }
  });

  it('brings nothing new the second time', () => {
    const stored = [fresh(1), fresh(2)];
    const once = read(text, stored);
    const after = stored.map((one, index) => {
      const { list: _list, row: _row, ...values } = once.cases[index]!;
      return { ...one, ...values };
    });
    const view = bringInView(read(text, after), {}, record);
    expect(view.take).toBeNull();
    expect(view.whyNot).toContain('nothing new');
  });
});

describe('the list of a sheet', () => {
  const day = (n: number, date: string, label: string | null = null) =>
    aList(n, { label, when: { kind: 'date', date } });
  const out = (list: ListRecord, lists: readonly ListRecord[], cases: readonly Case[]) =>
    listSheetCsv(sheet, cases, sheetListOf(list, lists));
  const added = '9,K9,2,L,Y,0,M,0\n';

  const kinds: [string, ListRecord][] = [
    ['a day', day(1, '2026-11-24')],
    ['a name and a day', day(1, '2026-11-24', 'Blue room')],
    ['a month', aList(1, { when: { kind: 'month', month: '2026-11' } })],
    ['a name and a month', aList(1, { label: 'Blue room', when: { kind: 'month', month: '2026-11' } })],
    ['a number', aList(1)],
    ['a name that looks like a person', day(1, '2026-11-24', 'Dr Brown')],
    ['nothing at all', aList(1, { when: { kind: 'unknown' } })],
  ];
  it.each(kinds)('known by %s goes out with it, and a case added comes back to it', (_, list) => {
    const others = [day(2, '2026-11-23'), aList(3), aList(4, { when: { kind: 'month', month: '2026-10' } })];
    const lists = [list, ...others];
    const stored = [fresh(1, { listId: list.id, position: 1 })];
    const csv = out(list, lists, stored) + added;
    expect(csv).not.toContain('Brown');
    const reading = read(csv, stored);
    const plan = importPlan(reading, {}, { lists });
    expect(plan.cases.map(({ code }) => code)).toEqual(['K9']);
    expect(plan.lists.map(({ key, there }) => [key, there])).toEqual([[plan.cases[0]?.list, list.id]]);
    expect(bringInView(reading, {}, { procedures, references: [], lists }).notes.join(' ')).toContain(
      '1 new case goes to a list of the record',
    );
  });

  it('is told by its record where another has the same name and day', () => {
    const lists = [day(1, '2026-11-24', 'A'), day(2, '2026-11-24', 'A')];
    const csv = out(lists[1]!, lists, [fresh(1)]) + added;
    expect(csv).toContain('list-2');
    expect(importPlan(read(csv, [fresh(1)]), {}, { lists }).lists).toMatchObject([{ there: 'list-2' }]);
  });

  it('is a new one where the record has none of that name and day', () => {
    const csv = listSheetCsv(sheet, []).replace(/^1,(,+)phaco$/m, '1,K1,2,L,Y,0,M,0,C,2026-11-25,phaco');
    const plan = importPlan(read(`${csv}2,K2,2,L,Y,0,M,0`), {}, { lists: [day(1, '2026-11-24', 'C')] });
    expect(plan.lists).toMatchObject([{ label: 'C', when: { kind: 'date', date: '2026-11-25' }, there: null }]);
    expect(plan.cases.map(({ list }) => list)).toEqual([plan.lists[0]?.key, plan.lists[0]?.key]);
  });

  it('is none for a case without one where a sheet names several', () => {
    const csv = filled('1,K1,2,L,Y,0,M,0,C,2026-11-25', '1,K2,2,L,Y,0,M,0,D,2026-11-25', '2,K3,2,L,Y,0,M,0');
    expect(read(csv).cases.find(({ code }) => code === 'K3')?.list).toBeNull();
  });

  it('changes nothing where the sheet comes back as it went out, filled in or not', () => {
    const list = day(1, '2026-11-24', 'A');
    const stored = [1, 2].map((n) => fresh(n, { listId: list.id, position: n }));
    expect(importPlan(read(out(list, [list], stored), stored), {}, { lists: [list] }).nothing).toBe(true);
    const answered = stored.map((one) => ({ ...one, facts: { nucleus: 'medium' }, events: [] }));
    const again = out(list, [list], answered).replaceAll(/^(\d,A\d),,/gm, '$1,2,');
    const plan = importPlan(read(again, answered), {}, { lists: [list] });
    expect(plan).toMatchObject({ nothing: true, cases: [], replace: [], lists: [] });
  });
});

describe('what a sheet is not asked', () => {
  const questions = (text: string, existing: readonly Case[] = []) =>
    read(text, existing).questions.map(({ id }) => id);

  it('which way its rows run, which procedure it is, or whether its codes are places', () => {
    const csv = listSheetCsv(sheet, [fresh(1), fresh(2)]) + '3,A1,2,L,Y,0,M,0\n4,K4,2,L,Y,0,M,0\n';
    const text = csv.replaceAll(/^(\d,A\d),,/gm, '$1,2,');
    expect(questions(text)).toEqual([]);
    const { cases, problems } = read(text);
    expect(cases.map(({ code, orderKnown }) => [code, orderKnown])).toEqual([
      ['A1', true],
      ['A2', true],
      ['K4', true],
    ]);
    expect(problems.find(({ row }) => row === 4)?.why).toContain('Two cases have the code "A1"');
  });

  it('which way its rows run, for a sheet of before, which names neither list nor procedure', () => {
    const old = (...rows: string[]) => [headings.replace(',List,Date,Procedure', ''), ...rows].join('\n');
    const text = old('1,K1,2,L,Y,0,M,0', '2,K2,3,S,Y,0,M,0');
    expect(questions(text)).toEqual(['procedure']);
    expect(read(text).cases.map(({ code, list }) => [code, list])).toEqual([
      ['K1', null],
      ['K2', null],
    ]);
  });

  it('but is where it holds places of several lists and no day', () => {
    expect(questions(filled('1,K1,2,L,Y,0,M,0,A', '1,K2,2,L,Y,0,M,0,B'))).toContain('order');
  });
});

describe('times of cases whose eyes were entered first', () => {
  it('come in without taking the facts away', () => {
    const stored = fresh(1, { facts: { nucleus: 'hard', pupil: 'small' }, events: [], code: 'K1' });
    const reading = read('case_id,capsulorhexis,hydrodissection\nK1,62,20\n', [stored]);
    expect(reading.cases[0]).toMatchObject({ facts: { nucleus: 'hard', pupil: 'small' }, events: [] });
    expect(reading.known[0]).toMatchObject({ conflicts: false, same: false });
    expect(reading.known[0]?.differences.map(({ what }) => what)).toEqual(['Capsulorhexis', 'Hydrodissection']);
  });
});

describe('a sheet on the command line', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sheet-'));
  const file = (name: string, text: string) => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const call = async (...args: string[]) => {
    let [out, err] = ['', ''];
    const io = {
      userFolder: folder,
      projectFolder: folder,
      out: (text: string) => void (out += text),
      err: (text: string) => void (err += text),
    };
    return { code: await run(args, io), out, err };
  };

  it('is refused as a file of times, and says how it helps', async () => {
    const { code, out } = await call('--json', file('sheet.csv', filled('1,K1,2,L,Y,0,M,0')));
    expect(code).toBe(2);
    expect(JSON.parse(out)).toMatchObject({
      format: 'next-twenty/problems/1',
      problems: [{ why: expect.stringContaining('--facts') as unknown }],
    });
  });

  it('is understood as facts beside times, letters too', async () => {
    const times = ['case_id,capsulorhexis,hydrodissection,nucleus removal', 'K1,62,20,200', 'K2,70,25,190'].join('\n');
    const { code, out, err } = await call(
      '--json',
      '--facts',
      file('facts.csv', filled('1,K1,2,L,Y,F,M,0', '2,K2,3,S,Y,0,M,0', '3,,,,,,,', '4,,,,,,,')),
      file('times.csv', times),
    );
    expect(code).toBe(0);
    expect(err).not.toMatch(/Anything else/);
    const { left_out } = JSON.parse(out) as { left_out: { row: number; why: string }[] };
    expect(left_out.map(({ row, why }) => [row, why])).toEqual([
      [
        1,
        expect.stringMatching(
          /only facts of the eye are joined, so "Place", "Hands", "Event", "List", "Date", "Procedure" are left out/,
        ),
      ],
      [4, expect.stringContaining('this row and 1 more hold no code and no fact')],
    ]);
  });
});
