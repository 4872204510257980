import { describe, expect, it } from 'vitest';
import { phaco } from './procedures';
import { question, read } from './reading';

/** One row a case: its code, two times, and the columns given. */
const sheet = (heading: string, cells: readonly string[]) =>
  [`case_id,Rhexis,Hydro,${heading}`, ...cells.map((cell, index) => `A${index + 1},40,25,${cell}`)].join('\n');
const factsOf = (text: string, choices: Record<string, string> = {}) =>
  read(text, choices).cases.map(({ facts }) => facts);

describe('a yes/no column that names one level of a fact', () => {
  it('is read, and what "no" stands for is asked once, with normal as the guess', () => {
    const text = sheet('small pupil,white cataract', ['yes,no', 'no,yes', 'no,no', 'yes,']);
    expect(factsOf(text)).toEqual([
      { pupil: 'small', nucleus: 'medium' },
      { pupil: 'large', nucleus: 'white' },
      { pupil: 'large', nucleus: 'medium' },
      { pupil: 'small' },
    ]);
    expect(question(read(text), 'otherwise:pupil')).toMatchObject({
      question: 'Where "small pupil" says no, what is entered for pupil?',
      guess: 'large',
      mustAnswer: false,
    });
    expect(factsOf(text, { 'otherwise:pupil': 'leave', 'otherwise:nucleus': 'soft' })).toEqual([
      { pupil: 'small', nucleus: 'soft' },
      { nucleus: 'white' },
      { nucleus: 'soft' },
      { pupil: 'small' },
    ]);
  });

  // As people head such columns; words of other languages are from memory.
  it.each([
    ['Small pupil (y/n)', 'pupil', 'small'],
    ['Poor dilation', 'pupil', 'small'],
    ['Enge Pupille', 'pupil', 'small'],
    ['petite pupille', 'pupil', 'small'],
    ['Pupila pequeña', 'pupil', 'small'],
    ['pupilla stretta', 'pupil', 'small'],
    ['má dilatação', 'pupil', 'small'],
    ['chhoti putli', 'pupil', 'small'],
    ['Well dilated', 'pupil', 'large'],
    ['Iris hooks', 'pupil', 'device'],
    ['White cataract', 'nucleus', 'white'],
    ['Weiße Katarakt', 'nucleus', 'white'],
    ['cataracte blanche', 'nucleus', 'white'],
    ['catarata blanca', 'nucleus', 'white'],
    ['cataratta bianca', 'nucleus', 'white'],
    ['safed motia', 'nucleus', 'white'],
    ['Dense nucleus', 'nucleus', 'hard'],
    ['Restless', 'still', false],
    ['Patient unruhig', 'still', false],
    ['patient agité', 'still', false],
    ['paciente inquieto', 'still', false],
    ['irrequieto', 'still', false],
    ['bechain', 'still', false],
    ['calm', 'still', true],
    ['Patient ruhig', 'still', true],
    ['PXF', 'loose-zonules', true],
    ['Pseudoexfoliación', 'loose-zonules', true],
    ['No PXF', 'loose-zonules', false],
    ['stable zonules', 'loose-zonules', false],
    ['keine PEX', 'loose-zonules', false],
    ['Floppy iris', 'floppy-iris', true],
    ['IFIS?', 'floppy-iris', true],
    ['iris a bandiera', 'floppy-iris', true],
    ['schlaffe Iris', 'floppy-iris', true],
  ])('%s: yes is %s %s', (heading, fact, value) => {
    const [yes, no] = factsOf(sheet(heading, ['ja', 'nein']));
    expect(yes).toEqual({ [fact]: value });
    if (typeof value === 'boolean') expect(no).toEqual({ [fact]: !value });
    else expect(no?.[fact]).not.toBe(value);
  });

  it('leaves a full column of the fact its say', () => {
    expect(factsOf(sheet('pupil,small pupil', ['M,yes', ',yes', 'L,no']))).toEqual([
      { pupil: 'medium' },
      { pupil: 'small' },
      { pupil: 'large' },
    ]);
  });

  it('takes the later level where two say yes, and asks', () => {
    const reading = read(sheet('small pupil,iris hooks', ['yes,yes', 'no,no']));
    expect(reading.cases[0]?.facts).toEqual({ pupil: 'device' });
    expect(reading.problems).toMatchObject([{ row: 2, column: 'iris hooks', weight: 'queried' }]);
  });

  it('names what is neither yes nor no, and enters nothing', () => {
    const reading = read(sheet('small pupil', ['yes', 'no', 'perhaps']));
    expect(reading.cases[2]?.facts).toEqual({});
    expect(reading.problems).toMatchObject([{ row: 4, column: 'small pupil', value: 'perhaps', weight: 'refused' }]);
  });

  it('can be chosen by hand, and left', () => {
    const text = sheet('tiny', ['yes', 'no']);
    expect(factsOf(text)).toEqual([{}, {}]);
    expect(factsOf(text, { 'column:tiny': 'level:pupil:small' })).toEqual([{ pupil: 'small' }, { pupil: 'large' }]);
    expect(read(text).columnOptions).toContainEqual({
      value: 'level:pupil:small',
      label: 'about this eye: Pupil small, yes or no',
    });
  });
});

describe('a column in which only yes is ever written', () => {
  const text = sheet('floppy iris,small pupil', ['x,', ',x', ',', 'x,']);

  it('is asked about once: no, or not entered', () => {
    expect(factsOf(text)).toEqual([
      { 'floppy-iris': true, pupil: 'large' },
      { 'floppy-iris': false, pupil: 'small' },
      { 'floppy-iris': false, pupil: 'large' },
      { 'floppy-iris': true, pupil: 'large' },
    ]);
    expect(question(read(text), 'empty:column:floppy iris')?.question).toBe(
      '2 cases have an empty cell under "floppy iris", 2 say yes and none says no. What does empty mean?',
    );
    expect(
      factsOf(text, { 'empty:column:floppy iris': 'not-entered', 'empty:column:small pupil': 'not-entered' }),
    ).toEqual([{ 'floppy-iris': true }, { pupil: 'small' }, {}, { 'floppy-iris': true }]);
  });

  it('is not, where somebody wrote no', () => {
    expect(factsOf(sheet('floppy iris', ['x', '', 'no']))).toEqual([
      { 'floppy-iris': true },
      {},
      { 'floppy-iris': false },
    ]);
  });
});

describe('words and grades under a fact', () => {
  it('are shown once with what they became, and can be changed for the file', () => {
    const text = sheet('Nucleus density', ['normal', '2+', 'soft', 'normal', 'klein']);
    const values = read(text).mapping.filter(({ kind }) => kind === 'value');
    expect(values.map(({ from, to, how, rows }) => [from, to, how, rows])).toEqual([
      ['Nucleus: normal', 'medium', 'loose', 2],
      ['Nucleus: 2+', 'medium', 'loose', 1],
      ['Nucleus: klein', 'not entered', 'none', 1],
    ]);
    const changed = { 'value:nucleus:normal': 'soft', 'value:nucleus:klein': 'hard' };
    expect(factsOf(text, changed).map(({ nucleus }) => nucleus)).toEqual(['soft', 'medium', 'soft', 'soft', 'hard']);
    expect(read(text, changed).problems).toEqual([]);
    expect(factsOf(text, { 'value:nucleus:normal': 'leave' })[0]).toEqual({});
  });

  it('go as far as people write them: LOCS in tenths', () => {
    const text = sheet('NS', ['0.1', 'NO 2.4', '2.5', '3.4', '4.4', '"4,5"', '6.9']);
    const reading = read(text);
    expect(reading.cases.map(({ facts }) => facts['nucleus'])).toEqual([
      'soft',
      'soft',
      'medium',
      'medium',
      'hard',
      'very-hard',
      'very-hard',
    ]);
    expect(question(reading, 'grades')).toMatchObject({
      question: 'The grades under "NS" go from 0.1 to 6.9. Which scale is it?',
      guess: 'locs',
    });
    expect(reading.mapping.filter(({ kind }) => kind === 'value')).toHaveLength(7);
    expect(factsOf(text, { 'value:nucleus:2 5': 'hard' })[2]).toEqual({ nucleus: 'hard' });
  });

  it('one to five, and one to four as numbered', () => {
    const nucleus = (grades: string[], choices = {}) =>
      factsOf(sheet('nucleus hardness', grades), choices).map((facts) => facts['nucleus']);
    expect(nucleus(['1', '2', '3', '4', '5'])).toEqual(['soft', 'soft', 'medium', 'hard', 'very-hard']);
    expect(nucleus(['1', '2', '3', '4', 'W'])).toEqual(['soft', 'medium', 'hard', 'very-hard', 'white']);
    expect(nucleus(['1', '2.5', '3', '4'])).toEqual(['soft', 'hard', 'hard', 'very-hard']);
    expect(nucleus(['1', '2.5', '3', '4'], { grades: 'locs' })).toEqual(['soft', 'medium', 'medium', 'hard']);
    expect(question(read(sheet('nucleus hardness', ['1', '4'])), 'grades')).toBeUndefined();
  });

  it('do not make minutes under the name of a step a grade', () => {
    const [one] = read('case_id,Rhexis,Nucleus\nA1,40,2.3\nA2,41,3.1\nA3,42,5.6').cases;
    expect(one?.stretches.map(({ stepId }) => stepId)).toContain('nucleus-removal');
    expect(one?.facts).toEqual({});
  });

  it('a grade of seven is none', () => {
    expect(read(sheet('nucleus hardness', ['1', '2', '3', '7'])).problems).toMatchObject([
      { row: 5, value: '7', weight: 'refused' },
    ]);
  });

  it('every shipped level can be said by a column of its own', () => {
    const levels = phaco.facts.flatMap(({ id, kind, levels: all = [] }) =>
      kind === 'choice' ? all.map((level) => [id, level] as const) : [],
    );
    expect(levels.length).toBeGreaterThan(8);
    for (const [id, level] of levels)
      expect(factsOf(sheet(`${level.label} ${id}`, ['yes', 'no']))[0]).toEqual({ [id]: level.id });
  });
});
