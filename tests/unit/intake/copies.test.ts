import { describe, expect, it } from 'vitest';
import type { Case } from '../../../src/lib/model';
import { read } from './reading';

const HEAD = 'patient no,Rhexis,Hydro,Phaco,I/A,IOL';
const rows = ['4471120,40,25,160,60,30', '4471121,41,26,161,61,31', '4471122,42,27,162,62,32'];
const text = [HEAD, ...rows].join('\n');
const fresh = { codes: 'new' };

/** The cases of a text as the record would hold them. */
const stored = (of: string, choices: Record<string, string> = {}): Case[] =>
  read(of, choices).cases.map(({ row: _row, list: _list, ...one }, index): Case => ({
    ...one,
    id: `case-${index + 1}`,
    listId: null,
    factChanges: [],
    leftOut: null,
    keptAsItIs: null,
    source: { kind: 'typed' },
    invented: false,
    version: 1,
    history: [],
  }));

describe('the same file again, where its cases were given new codes', () => {
  it('changes nothing: each is known by its times', () => {
    const again = read(text, fresh, stored(text, fresh));
    expect(again.known.map(({ code, same }) => [code, same])).toEqual([
      ['C1', true],
      ['C2', true],
      ['C3', true],
    ]);
    expect(again.cases.map(({ code }) => code)).toEqual(['C1', 'C2', 'C3']);
  });

  it('brings in again what was erased since, and nothing else', () => {
    const left = stored(text, fresh).filter(({ code }) => code !== 'C2');
    const again = read(text, fresh, left);
    expect(again.known.map(({ code }) => code)).toEqual(['C1', 'C3']);
    expect(again.cases).toHaveLength(3);
  });

  it('takes one case of the record for one row only', () => {
    const twice = read([HEAD, rows[0], '4471199,40,25,160,60,30'].join('\n'), fresh, stored(text, fresh));
    expect(twice.known).toHaveLength(1);
    expect(twice.cases).toHaveLength(2);
  });
});

describe('a copy under another code', () => {
  const own = text.replace('patient no', 'case_id').replaceAll('44711', 'A');
  it('is taken, and asked about, since nobody else can tell', () => {
    const { known, cases, problems } = read(own.replaceAll('A2', 'B'), {}, stored(own));
    expect(known).toEqual([]);
    expect(cases).toHaveLength(3);
    expect(problems.map(({ row, value, weight }) => [row, value, weight])).toEqual([
      [2, 'B0', 'queried'],
      [3, 'B1', 'queried'],
      [4, 'B2', 'queried'],
    ]);
    expect(problems[0]?.why).toMatch(/^The times are those of "A20", which is in the record\./);
  });

  it('is not suspected from three times alone', () => {
    const short = 'case_id,Rhexis,Hydro,Phaco\nA1,40,25,160';
    expect(read(short.replace('A1', 'B1'), {}, stored(short)).problems).toEqual([]);
  });
});
