import { describe, expect, it } from 'vitest';
import { isSummaryName } from '../../../src/lib/intake/table/summary-rows';
import { read } from './reading';

describe('rows that are no cases', () => {
  // As people name them; the words of other languages are from memory.
  it.each([
    'Mean',
    'AVERAGE / TOTAL',
    'Average of all cases',
    'SD',
    'Std. Dev.',
    '95% CI',
    'N = 50',
    'Total time (s)',
    'Summe',
    'Ø',
    'Ø / SD',
    'Mittelwert',
    'Durchschnitt aller Fälle',
    'Moyenne',
    'Écart-type',
    'Médiane',
    'Promedio',
    'Desviación estándar',
    'Somma totale',
    'Média',
    'Desvio padrão',
    'Ausat',
    '∑',
  ])('%s is left out and named', (name) => {
    const { cases, problems, rowsIn, rowsTaken, rowsNamed } = read(
      `case_id,Rhexis,Hydro,Phaco\nA1,40,25,160\nA2,41,26,161\n${name},40.5,25.5,160.5`,
    );
    expect(cases.map(({ code }) => code)).toEqual(['A1', 'A2']);
    expect(problems).toMatchObject([{ row: 4, value: name, why: expect.stringContaining('is not a case') }]);
    expect([rowsIn, rowsTaken, rowsNamed]).toEqual([3, 2, 1]);
  });

  it.each([
    'N-12',
    'SD 3',
    'M1',
    'Min 4',
    'Case 12',
    '12',
    'Total knee',
    'A',
    'Summer 3',
    'C-sum',
    'S 12',
    'Max'.repeat(30),
  ])('%s stays a code', (name) => expect(isSummaryName(name)).toBe(false));
});

describe('codes with events or facts alone', () => {
  it('come in: one column beside the code is enough', () => {
    const events = read('case_id,Complication\nA1,none\nA2,PCR');
    expect(events.layout).toBe('sheet');
    expect(events.cases.map(({ code, events: of }) => [code, of?.map(({ kind }) => kind)])).toEqual([
      ['A1', []],
      ['A2', ['posterior-capsule-tear']],
    ]);
    const facts = read('Case,Pupil\nA1,small\nA2,L');
    expect(facts.cases.map(({ code, facts: of, events: no }) => [code, of, no])).toEqual([
      ['A1', { pupil: 'small' }, null],
      ['A2', { pupil: 'large' }, null],
    ]);
  });

  it('do not turn any list of numbers into one', () => {
    expect(read('case_id,weight\nA1,70').layout).toBeNull();
    expect(read('event,when\nPCR,during').layout).toBeNull();
  });
});
