import { describe, expect, it } from 'vitest';
import { bringInView } from '../../../src/lib/rooms/bring-in/bring-in-view';
import { importBatch, importPlan } from '../../../src/lib/rooms/bring-in/import-plan';
import { againWords, takenWords } from '../../../src/lib/rooms/bring-in/import-words';
import { problemLines, rowWords } from '../../../src/lib/rooms/bring-in/problem-lines';
import { readAudit } from '../../../src/lib/intake';
import type { Case } from '../../../src/lib/model';
import { aCase, smallProcedure } from '../../made-up/record';

const procedures = [smallProcedure];
const read = (text: string, choices: Record<string, string> = {}, existing: Case[] = []) =>
  readAudit({ text, fileName: 'times.csv', procedures, choices, existing });
const shown = (text: string, choices: Record<string, string> = {}, existing: Case[] = []) =>
  bringInView(read(text, choices, existing), choices, { procedures, references: [], lists: [] });

const HEAD = 'case_id,list,date,side-port,capsulorhexis,cortex,wound-check';
const sheet = (...rows: string[]) => [HEAD, ...rows].join('\n');
const three = sheet('B1,1,2026-03-02,30,61,70,40', 'B2,1,2026-03-02,29,64,75,44', 'B3,2,2026-03-09,31,66,72,43');
/** The cases of a text as the record would hold them. */
const stored = (text: string): Case[] =>
  read(text).cases.map(({ row: _row, list: _list, ...one }, index) => ({ ...aCase(index + 1), ...one }));

describe('the preview of what comes in', () => {
  it('tells in one sentence what was understood', () => {
    expect(shown(three).sentence).toBe(
      'Read as one row a case, Small operation: 3 cases, 4 steps, 2 lists, events not asked in this file.',
    );
    expect(shown(three).take).toBe('Take 3 cases');
  });

  it('takes good rows and names the others on the button', () => {
    const view = shown(`${three}\nB4,2,2026-03-09,,,,\nMean,,,30,64,72,42`);
    expect(view.take).toMatch(/^Take 3 cases; \d rows named above stay out$/);
    expect(view.refused.first.join(' ')).toContain('Row 5');
  });

  it('counts on the button what the message afterwards counts, and rows and cases apart beside it', () => {
    const text = [
      'case_id,step,seconds',
      ...['B1', 'B2', 'B3'].flatMap((code) => [`${code},capsulorhexis,61`, `${code},cortex,70`]),
    ].join('\n');
    const [first, second] = stored(text);
    if (!first || !second) throw new Error('no cases');
    const existing = [first, { ...second, stretches: second.stretches.slice(0, 1) }];
    const view = shown(text, { known: 'new' }, existing);
    expect(view.notes[0]).toBe('6 good rows make 3 cases: 1 new, 1 to be filled in or replaced and 1 unchanged.');
    expect(view.take).toBe('Take 1 case and fill in or replace 1 case of the record');
    const { cases, replace } = importPlan(read(text, {}, existing), { known: 'new' });
    expect(takenWords({ added: cases.length, changed: replace.length, references: 0 })).toBe(
      '1 case was taken and 1 case of the record was filled in or replaced.',
    );
  });

  it('lists twenty problems, the rest behind them, and says how many are not listed at all', () => {
    const bad = Array.from({ length: 400 }, (_, index) => `X${index},1,2026-03-02,30,x${index},70,40`);
    const view = shown(sheet('B1,1,2026-03-02,30,61,70,40', ...bad));
    const listed = view.refused.total > 0 ? view.refused : view.queried;
    expect([listed.total, listed.first.length, listed.more]).toEqual([400, 1, 0]);
    expect(listed.first[0]).toMatch(/^Rows 3 to 402, .*: 400 different values, the first "x0"\./);
    const words = Array.from({ length: 400 }, (_, index) => 'ab'.repeat(index));
    const each = words.map((why, index) => ({
      row: index,
      column: 'eye',
      value: 'x',
      why,
      weight: 'refused' as const,
    }));
    const problems = problemLines(each);
    expect(problems.first).toHaveLength(20);
    expect(problems.first.length + problems.rest.length + problems.more).toBe(400);
    expect(problems.more).toBeGreaterThan(0);
  });

  it('puts rows with one and the same trouble on one line', () => {
    expect(rowWords([2, 3, 4, 9])).toBe('rows 2 to 4 and 9');
    expect(rowWords([7])).toBe('row 7');
    expect(rowWords(Array.from({ length: 40 }, (_, index) => 2 * index))).toMatch(/^rows 0, 2, .* and 28 more$/);
    const same = Array.from({ length: 50 }, (_, index) => ({
      row: index + 2,
      column: 'surgeon',
      value: null,
      why: 'A row of another surgeon, left out.',
      weight: 'refused' as const,
    }));
    expect(problemLines(same)).toMatchObject({
      total: 50,
      first: ['Rows 2 to 51, surgeon: A row of another surgeon, left out.'],
      more: 0,
    });
  });

  it('puts many cases with the times of others on one line, with the first as the example', () => {
    const copies = Array.from({ length: 60 }, (_, index) => ({
      row: 2 + 5 * index,
      column: null,
      value: `N${index + 1}`,
      why: `The times are those of "L${index + 1}", which is in the record.`,
      weight: 'queried' as const,
    }));
    const { total, first } = problemLines(copies);
    expect([total, first.length]).toEqual([60, 1]);
    expect(first[0]).toMatch(
      /^Rows 2, 7, .* and 48 more: 60 of this kind, the first "N1"\. The times are those of "L1", which is in the record\.$/,
    );
  });

  it('says once that nobody said whose hands, and nothing where a column does', () => {
    const hands = /No column says whose hands/;
    expect(shown(three).notes.join(' ')).toMatch(hands);
    const said = three
      .split('\n')
      .map((row, index) => `${row},${index === 0 ? 'hands' : 'mine'}`)
      .join('\n');
    expect(shown(said).notes.join(' ')).not.toMatch(hands);
  });

  it('says that a file taken in before brings nothing new', () => {
    const view = shown(three, {}, stored(three));
    expect(view.known.same).toBe(3);
    expect(view.take).toBeNull();
    expect(view.whyNot).toContain('nothing new');
  });

  it('shows old beside new for a case with other values, and keeps the old until the new is chosen', () => {
    const changed = three.replace('B2,1,2026-03-02,29', 'B2,1,2026-03-02,35');
    const view = shown(changed, {}, stored(three));
    expect(view.known.changed).toHaveLength(1);
    expect(view.known.changed[0]).toMatchObject({ code: 'B2', takeNew: false });
    expect(view.known.changed[0]?.differences.join()).toContain('29 s → 35 s');
    expect(view.take).toBeNull();
    expect(view.whyNot).toBe(
      'There is nothing new to take: every case of this file is in the record already, 1 case of them with other values, which stay unless you take the new ones.',
    );
    const id = view.known.changed[0]?.caseId ?? '';
    expect(importPlan(read(changed, {}, stored(three)), { [`known:${id}`]: 'new' }).replace).toHaveLength(1);
    expect(importPlan(read(changed, {}, stored(three)), { known: 'new' }).replace).toHaveLength(1);
    expect(importPlan(read(changed, {}, stored(three)), { known: 'new', [`known:${id}`]: 'old' }).replace).toHaveLength(
      0,
    );
  });

  it('brings only the lists of cases that are taken', () => {
    const { cases, lists } = importPlan(read(three, {}, stored(three).slice(0, 2)), {});
    expect(cases.map(({ code }) => code)).toEqual(['B3']);
    expect(lists).toHaveLength(1);
  });

  it('says why nothing can be taken where the file cannot be read', () => {
    const view = shown('');
    expect(view.sentence).toBe('This could not be read as a table of times.');
    expect(view.take).toBeNull();
    expect(view.refused.total).toBeGreaterThan(0);
  });

  it('waits for the questions that must be answered', () => {
    const text = [`${HEAD},surgeon`, 'B1,1,2026-03-02,30,61,70,40,me', 'B2,1,2026-03-02,20,41,50,30,Other'].join('\n');
    const view = shown(text);
    expect(view.take).toBeNull();
    expect(view.whyNot).toMatch(/questions? above must be answered/);
  });
});

describe('times of other surgeons', () => {
  const text = [
    `${HEAD},surgeon`,
    'B1,1,2026-03-02,30,61,70,40,Mine',
    'B2,1,2026-03-02,31,62,71,41,Mine',
    'B3,2,2026-03-09,20,41,50,30,Theirs',
  ].join('\n');
  const choices = { 'surgeon:Mine': 'me', 'surgeon:Theirs': 'reference', agreed: 'yes', referenceLabel: 'Our unit' };

  it('go into a reference set as step times and facts, without name, code, date or list name', () => {
    const reading = read(text, choices);
    const batch = importBatch(importPlan(reading, choices), reading, '2026-04-01T00:00:00.000Z', () => false);
    expect(batch.cases.map(({ code }) => code)).toEqual(['B1', 'B2']);
    expect(batch.references).toEqual([
      {
        label: 'Our unit',
        procedureId: 'small',
        agreedAt: '2026-04-01T00:00:00.000Z',
        invented: false,
        cases: [
          {
            reader: 'R1',
            list: 1,
            facts: {},
            stepSeconds: { 'side-port': 20, capsulorhexis: 41, cortex: 50, 'wound-check': 30 },
          },
        ],
      },
    ]);
    expect(JSON.stringify(batch.references)).not.toMatch(/Theirs|B3|2026-03/);
  });

  it('are not kept twice when the same file comes again', () => {
    const reading = read(text, choices, stored(text));
    const [first] = importBatch(
      importPlan(read(text, choices), choices),
      reading,
      '2026-04-01T00:00:00.000Z',
      () => false,
    ).references;
    const references = first ? [{ ...first, id: 'reference-1' }] : [];
    expect(importPlan(reading, choices, { references }).referenceCases).toEqual([]);
    const view = bringInView(reading, choices, { procedures, references, lists: [] });
    expect(view.notes.join(' ')).toContain('reference set of the record already');
  });

  it('a whole file without a surgeon column can be said to be of another surgeon', () => {
    const plan = importPlan(read(three), { whose: 'reference' });
    expect(plan.cases).toEqual([]);
    expect(plan.reference).toEqual({ cases: 3, readers: 1, label: 'Reference set' });
  });
});

describe('whose times', () => {
  const other = three.replaceAll(/\bB/g, 'X').replaceAll('30,61', '33,68');

  it('are own by default in a record that has none, or only invented ones', () => {
    expect(shown(other)).toMatchObject({ whose: 'me', take: 'Take 3 cases' });
    const invented = stored(three).map((one) => ({ ...one, invented: true }));
    expect(shown(other, {}, invented)).toMatchObject({ whose: 'me', take: 'Take 3 cases' });
  });

  it('are asked in a record that has own cases, and nothing is chosen beforehand', () => {
    const view = shown(other, {}, stored(three));
    expect(view).toMatchObject({ whose: 'open', take: null, whyNot: 'Say first whose times these are.' });
    expect(shown(other, { whose: 'me' }, stored(three))).toMatchObject({ whose: 'me', take: 'Take 3 cases' });
    const theirs = shown(other, { whose: 'reference' }, stored(three));
    expect(theirs).toMatchObject({ whose: 'reference', take: null, reference: { cases: 3, readers: 1 } });
    expect(theirs.whyNot).toContain('that the surgeons agreed');
  });

  it('are asked although the codes are the same, where the values are others: numbers begin at one everywhere', () => {
    const same = three.replaceAll(',61,', ',68,').replaceAll(',64,', ',69,').replaceAll(',66,', ',71,');
    expect(shown(same, {}, stored(three)).whose).toBe('open');
    expect(shown(three, {}, stored(three)).whose).toBe('me');
  });

  it('are not asked of a sheet without times, which belongs to own cases', () => {
    expect(shown('case_id,complication\nB1,none\nB9,PCR', {}, stored(three)).whose).toBeNull();
  });
});

describe('a file whose text was taken in before', () => {
  const says = (existing: Case[]) => {
    const reading = read(three, {}, existing);
    return againWords('1 March 2026', reading, importPlan(reading, {}));
  };
  const all = stored(three);

  it('changes nothing where everything still stands', () => {
    expect(says(all)).toBe('This same file was taken in on 1 March 2026. Taking it again changes nothing.');
  });

  it('brings back what was erased, and says how many', () => {
    expect(says(all.slice(1))).toBe(
      'This same file was taken in on 1 March 2026. 1 case of it is not in the record now: erased since, or left out then. Taking the file again brings it in.',
    );
  });

  it('says where values were changed since', () => {
    const changed = all.map((one, index) =>
      index === 0 ? { ...one, stretches: one.stretches.map((each) => ({ ...each, seconds: each.seconds + 1 })) } : one,
    );
    expect(says(changed)).toBe(
      'This same file was taken in on 1 March 2026. 1 case of it stands in the record with other values now.',
    );
  });
});

describe('what an import has done', () => {
  it('is one sentence', () => {
    expect(takenWords({ added: 10_000, changed: 0, references: 0 })).toBe('10,000 cases were taken.');
    expect(takenWords({ added: 1, changed: 2, references: 1 })).toBe(
      '1 case was taken, 2 cases of the record were filled in or replaced and 1 reference set was kept.',
    );
    expect(takenWords({ added: 0, changed: 1, references: 0 })).toBe('1 case of the record was filled in or replaced.');
    expect(takenWords({ added: 0, changed: 0, references: 0 })).toBe('Nothing was taken.');
  });
});
