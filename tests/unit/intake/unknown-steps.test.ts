import { describe, expect, it } from 'vitest';
import { readAudit } from '../../../src/lib/intake';
import { procedures } from './procedures';
import { question, read, steps } from './reading';

describe('a name no step has', () => {
  const text = 'case,step,seconds\nA1,Rhexis,30\nA1,Ring in,25\nA1,Phaco,150';

  it('must be answered before anything is taken: a guess would drop its times', () => {
    const reading = read(text);
    expect(question(reading, 'label:ring in')).toMatchObject({ mustAnswer: true, answered: false, guess: 'leave' });
    expect(reading.ready).toBe(false);
    expect(read(text, { 'label:ring in': 'leave' })).toMatchObject({ ready: true, rowsTaken: 2, rowsNamed: 1 });
    expect(steps(read(text, { 'label:ring in': 'step:iol-insertion' }).cases[0])).toEqual([
      'capsulorhexis',
      'iol-insertion',
      'nucleus-removal',
    ]);
  });
});

describe('the step of a running goal', () => {
  const running = [{ procedureId: 'phaco', stepId: 'capsulorhexis' }];
  const withGoal = (text: string, choices: Record<string, string> = {}) =>
    readAudit({ text, fileName: 'a.csv', procedures, choices: { procedure: 'phaco', ...choices }, running });
  const columns = 'case,Circle of the bag,Hydro,Phaco\nA1,80,25,150\nA2,81,26,151';

  it('is asked for where a file of times has none, with the headings that were not read', () => {
    const asked = question(withGoal(columns), 'running:capsulorhexis');
    expect(asked).toMatchObject({ mustAnswer: true, answered: false });
    expect(asked?.question).toBe(
      'Your goal is on capsulorhexis, and nothing in this file was read as it. Is it there under another name?',
    );
    expect(asked?.options.map(({ label }) => label)).toEqual([
      'no: capsulorhexis was not timed, and these cases cannot count for it',
      'yes: "Circle of the bag"',
    ]);
  });

  it('is read under the heading, or the name, that is answered', () => {
    const reading = withGoal(columns, { 'running:capsulorhexis': 'column:circle of the bag' });
    expect(steps(reading.cases[0])).toEqual(['capsulorhexis', 'hydrodissection', 'nucleus-removal']);
    expect(reading.ready).toBe(true);
    const rows = withGoal('case,step,seconds\nA1,Circle,80\nA1,Hydro,25', {
      'running:capsulorhexis': 'label:circle',
      'label:circle': '',
    });
    expect(steps(rows.cases[0])).toEqual(['capsulorhexis', 'hydrodissection']);
  });

  it('is not asked for where it is there, was not timed, or the file has no times', () => {
    const asks = (text: string, choices = {}) => question(withGoal(text, choices), 'running:capsulorhexis');
    expect(asks('case,Rhexis,Hydro\nA1,80,25')).toBeUndefined();
    expect(asks('case_id,Complication\nA1,none')).toBeUndefined();
    expect(withGoal(columns, { 'running:capsulorhexis': 'not-timed' }).ready).toBe(true);
  });
});
