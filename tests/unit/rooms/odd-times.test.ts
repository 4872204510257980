import { describe, expect, it } from 'vitest';
import { bringInView } from '../../../src/lib/rooms/bring-in/bring-in-view';
import { importPlan } from '../../../src/lib/rooms/bring-in/import-plan';
import { oddInCase, oddInFile, oddInImport } from '../../../src/lib/rooms/cases/odd-times';
import { readAudit } from '../../../src/lib/intake';
import type { Case } from '../../../src/lib/model';
import { atOnce } from '../../../src/lib/turns';
import { aCase, aGoal, aRecord, casesInLists, smallProcedure } from '../../made-up/record';

const procedures = [smallProcedure];
const HEAD = 'case_id,list,date,side-port,capsulorhexis,cortex,wound-check';
const rows = (count: number) =>
  Array.from({ length: count }, (_, at) => `B${at + 1},1,2026-03-02,${30 + (at % 5)},${60 + (at % 7)},70,40`);
const read = (text: string, existing: readonly Case[] = []) =>
  readAudit({ text, fileName: 'times.csv', procedures, choices: {}, existing: [...existing] });

/** What the page before an import asks about. */
function asked(text: string, existing: Case[] = [], choices: Record<string, string> = {}) {
  const record = aRecord({ cases: existing, procedures });
  const reading = read(text, existing);
  const odd = atOnce(oddInImport(importPlan(reading, choices), reading, record));
  return bringInView(reading, choices, record, odd).queried.first;
}

const withTime = (one: Case, stepId: string, seconds: number): Case => ({
  ...one,
  stretches: one.stretches.map((stretch) => (stretch.stepId === stepId ? { ...stretch, seconds } : stretch)),
});

describe('odd times', () => {
  const odd = [HEAD, ...rows(20), `B21,1,2026-03-02,30,7000,70,40`].join('\n');

  it('are asked about before a file is taken, by row, and stay good rows', () => {
    expect(asked(odd)).toEqual([
      'Row 22: 7000 s is far longer than you usually take for capsulorhexis. Is the time right?',
    ]);
    const reading = read(odd);
    expect(bringInView(reading, {}, aRecord({ procedures })).take).toBe('Take 21 cases');
    expect(importPlan(reading, {}).cases).toHaveLength(21);
  });

  it('are measured by the record where the file is short, and asked about in its new cases alone', () => {
    const there = casesInLists(30, 5).cases.map((one) => withTime(one, 'capsulorhexis', 60));
    const strange = withTime(aCase(31), 'capsulorhexis', 3000);
    const text = [HEAD, 'N1,9,2026-08-01,30,900,30,30'].join('\n');
    expect(asked(text)).toEqual([]);
    expect(asked(text, [...there, strange])).toEqual([
      expect.stringMatching(/^Row 2: 900 s is far longer than you usually take for capsulorhexis/),
    ]);
  });

  it('are asked about on the command line in a file taken alone', () => {
    expect(atOnce(oddInFile(read(odd), procedures)).map(({ row }) => row)).toEqual([22]);
    expect(atOnce(oddInFile({ ...read(odd), procedureId: null }, procedures))).toEqual([]);
  });

  it('stand on the page of their case, unless its times are hidden for now', () => {
    const { cases, lists } = casesInLists(53, 5);
    const changed = cases.map((one) => (one.id === 'case-50' ? withTime(one, 'capsulorhexis', 4000) : one));
    const on = (goals: ReturnType<typeof aGoal>[]) => {
      const record = aRecord({ cases: changed, lists, goals, procedures });
      return record.cases.map((one) => atOnce(oddInCase(one, record))).flat();
    };
    expect(on([])).toEqual(['4000 s is far longer than you usually take for capsulorhexis. Is the time right?']);
    expect(on([aGoal(40)])).toEqual([]);
  });
});
