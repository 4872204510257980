import { describe, expect, it } from 'vitest';
import { question, read } from './reading';

const FILE = ['case_id,hands,rhexis,hydro', 'A1,Assistent,60,30', 'A2,ich,61,31', 'A3,resident,62,32', 'A4,Zusammen mit Chef,63,33'].join('\n'); // prettier-ignore
const whole = (choices: Record<string, string> = {}) => read(FILE, choices).cases.map(({ hands }) => hands.whole);

describe('words for hands', () => {
  it('are asked about in the words of the file: places in training, which may be the surgeon’s own, and what nobody knows', () => {
    const reading = read(FILE);
    expect(reading.questions.map(({ id }) => id).filter((id) => id.startsWith('hands:'))).toEqual([
      'hands:assistent',
      'hands:resident',
      'hands:zusammen mit chef',
    ]);
    expect(question(reading, 'hands:resident')).toMatchObject({
      question: 'Whose hands does "resident" mean?',
      guess: 'someone-else',
      mustAnswer: false,
      examples: [{ row: 4, text: 'resident' }],
    });
    expect(whole()).toEqual(['someone-else', 'mine', 'someone-else', 'shared']);
    expect(reading.problems.filter(({ column }) => column === 'hands')).toHaveLength(1);
  });

  it('mean what was answered, in every cell, and the rows show what they became', () => {
    const answers = { 'hands:assistent': 'mine', 'hands:resident': 'mine', 'hands:zusammen mit chef': 'taken-over' };
    expect(whole(answers)).toEqual(['mine', 'mine', 'mine', 'taken-over']);
    expect(read(FILE, answers).problems.filter(({ column }) => column === 'hands')).toEqual([]);
    const steps = read('case_id,step,seconds,hands\nA1,Rhexis,60,SpR 4\nA1,Hydro,30,ich', {
      'hands:spr 4': 'someone-else',
    });
    expect(steps.cases[0]?.hands).toEqual({ whole: 'mine', steps: { capsulorhexis: 'someone-else' } });
  });
});
