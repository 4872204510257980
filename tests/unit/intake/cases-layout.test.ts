import { describe, expect, it } from 'vitest';
import { lengths, question, read } from './reading';

describe('one row a case', () => {
  it('reads a column a step, with units in headings and facts between', () => {
    const reading = read(
      'Case no;Nucleus;Rhexis (s);Hydro (s);Phaco (min);I/A;Notes\n1;2;83,5;40;1,5;0:50;lovely\n2;hard;90;35;2,5;1:10;',
    );
    expect(reading).toMatchObject({ layout: 'cases', procedureId: 'phaco', rowsIn: 2, rowsTaken: 2, rowsNamed: 0 });
    expect(reading.cases.map(({ code, facts }) => [code, facts])).toEqual([
      ['1', { nucleus: 'medium' }],
      ['2', { nucleus: 'hard' }],
    ]);
    expect(
      ['capsulorhexis', 'hydrodissection', 'nucleus-removal', 'cortex-aspiration'].map((id) =>
        lengths(reading.cases[0], id),
      ),
    ).toEqual([[83.5], [40], [90], [50]]);
    expect(reading.mapping.find(({ from }) => from === 'Notes')).toMatchObject({
      value: 'leave',
      how: 'none',
      to: 'not used',
    });
    expect(JSON.stringify(reading.cases)).not.toContain('lovely');
  });

  it('tells a fact from a step by what stands under "Nucleus"', () => {
    expect(lengths(read('case,nucleus,rhexis\n1,145,60\n2,188,70').cases[0], 'nucleus-removal')).toEqual([145]);
    expect(read('case,nucleus,rhexis\n1,2,60\n2,white,70').cases.map(({ facts }) => facts['nucleus'])).toEqual([
      'medium',
      'white',
    ]);
  });

  it('lets the place among the columns decide where a heading names several steps', () => {
    const reading = read('case,visco,rhexis,phaco,I/A,visco,IOL,I/A\n1,10,60,100,50,9,30,25');
    expect(reading.cases[0]?.stretches.map(({ stepId, seconds }) => [stepId, seconds])).toEqual([
      ['ovd-fill', 10],
      ['capsulorhexis', 60],
      ['nucleus-removal', 100],
      ['cortex-aspiration', 50],
      ['bag-refill', 9],
      ['iol-insertion', 30],
      ['ovd-removal', 25],
    ]);
  });

  it('reads waiting, returned to, hands, protected parts and start with end', () => {
    const reading = read(
      'case,rhexis start,rhexis end,IOL,IOL waiting,IOL went back,phaco hands,phaco,lens identity pause seen,hands\n1,10,70,60,20,2,taken over,200,yes,mine\n2,5,50,40,,,,190,no,mine\n3,70,10,40,,x,,190,maybe,mine',
    );
    expect(reading.cases[0]).toMatchObject({
      hands: { whole: 'mine', steps: { 'nucleus-removal': 'taken-over' } },
      returnsNoted: { 'iol-insertion': 2 },
      protectedSeen: { 'lens-identity': true },
    });
    expect(reading.cases[0]?.stretches).toContainEqual({
      stepId: 'capsulorhexis',
      start: 10,
      end: 70,
      seconds: 60,
      kind: 'step',
      reason: null,
    });
    expect(reading.cases[0]?.stretches).toContainEqual({
      stepId: 'iol-insertion',
      start: null,
      end: null,
      seconds: 20,
      kind: 'waiting',
      reason: null,
    });
    expect(reading.cases[1]?.protectedSeen).toEqual({ 'lens-identity': false });
    expect(reading.problems.map(({ row, column, value }) => [row, column, value])).toEqual([
      [4, 'rhexis end', '10'],
      [4, 'IOL went back', 'x'],
      [4, 'lens identity pause seen', 'maybe'],
    ]);
  });

  it('asks whether the waiting is part of the step', () => {
    const text = 'case,rhexis,IOL,IOL waiting\n1,60,50,20\n2,60,10,20';
    expect(question(read(text), 'waiting')).toMatchObject({ guess: 'inside' });
    expect(lengths(read(text).cases[0], 'iol-insertion')).toEqual([50]);
    // Waiting longer than its step cannot be inside it.
    expect(lengths(read(text).cases[1], 'iol-insertion')).toEqual([30]);
    expect(read(text).problems).toMatchObject([{ row: 3, column: 'IOL waiting', weight: 'queried' }]);
    expect(lengths(read(text, { waiting: 'beside' }).cases[0], 'iol-insertion')).toEqual([70]);
  });

  it('names a step that would be more than two hours with its waiting, and takes neither', () => {
    const long = read('case,rhexis,IOL,IOL waiting\n1,1 min,100 min,50 min', { waiting: 'beside' });
    expect(long.cases[0]?.stretches.map(({ stepId }) => stepId)).toEqual(['capsulorhexis']);
    expect(long.problems).toMatchObject([
      { row: 2, column: 'IOL waiting', weight: 'refused', why: expect.stringContaining('more than two hours') },
      { row: 2, column: 'IOL', weight: 'refused' },
    ]);
  });

  it('asks what 1.23 is, and guesses from the size', () => {
    const minutes = read('case,rhexis,phaco\n1,1.23,2.45\n2,1.05,3.10\n3,0.58,2.30');
    expect(question(minutes, 'plain-number')).toMatchObject({
      guess: 'minutes-seconds',
      examples: [{ row: 2 }, { row: 3 }, { row: 4 }],
    });
    expect(lengths(minutes.cases[0], 'capsulorhexis')).toEqual([83]);
    const decimals = read('case,rhexis,phaco\n1,1.23,2.85\n2,1.75,3.10');
    expect(question(decimals, 'plain-number')).toMatchObject({ guess: 'minutes' });
    expect(lengths(decimals.cases[0], 'capsulorhexis')).toEqual([73.8]);
    const seconds = read('case,rhexis,phaco\n1,61.23,142.45\n2,71.05,153.10');
    expect(question(seconds, 'plain-number')).toMatchObject({ guess: 'seconds' });
    expect(lengths(seconds.cases[0], 'capsulorhexis')).toEqual([61.23]);
    expect(question(read('case,rhexis,phaco\n1,61.7,142.9'), 'plain-number')).toBeUndefined();
    expect(question(read('case,rhexis (s),phaco (s)\n1,1.23,2.45'), 'plain-number')).toBeUndefined();
    expect(
      lengths(read('case,rhexis,phaco\n1,1.23,2.45', { 'plain-number': 'seconds' }).cases[0], 'capsulorhexis'),
    ).toEqual([1.23]);
    // Under "(min)" an integer is minutes; the fraction is asked about.
    expect(lengths(read('case,rhexis (min),phaco (min)\n1,1,3\n2,2,4').cases[0], 'capsulorhexis')).toEqual([60]);
  });

  it('asks once for each way of leaving a time out', () => {
    const reading = read('case,rhexis,polish,phaco\n1,60,0,100\n2,61,-,99\n3,62,n/a,98\n4,63,,97');
    expect(reading.questions.filter(({ id }) => id.startsWith('blank:')).map(({ id, guess }) => [id, guess])).toEqual([
      ['blank:zero', 'not-done'],
      ['blank:dash', 'not-done'],
      ['blank:n-a', 'not-done'],
      ['blank:empty', 'not-timed'],
    ]);
    expect(reading.cases.every((one) => lengths(one, 'capsule-polish').length === 0)).toBe(true);
    expect(reading.problems).toEqual([]);
  });

  it('reads clock readings: a length is a reading less the one before, and unknown after a step not timed', () => {
    const text = 'case,incision,visco,rhexis,hydro,phaco\n1,20,30,80,110,300\n2,18,-,70,90,280\n3,22,,75,95,290';
    const reading = read(text);
    expect(question(reading, 'readings')).toMatchObject({ guess: 'readings' });
    expect(lengths(reading.cases[0], 'capsulorhexis')).toEqual([50]);
    expect(lengths(reading.cases[1], 'capsulorhexis')).toEqual([52]);
    expect(lengths(reading.cases[2], 'capsulorhexis')).toEqual([]);
    expect(lengths(reading.cases[2], 'hydrodissection')).toEqual([20]);
    expect(reading.problems).toMatchObject([{ row: 4, column: 'rhexis', value: '75', weight: 'refused' }]);
    expect(lengths(read(text, { readings: 'lengths' }).cases[0], 'capsulorhexis')).toEqual([80]);
  });

  it('turns numbers that begin again on each list into list and number', () => {
    const reading = read('case,rhexis,phaco\n1,60,90\n2,61,91\n3,62,92\n1,63,93\n2,64,94\n1,65,95');
    expect(question(reading, 'repeats')).toMatchObject({ guess: 'places' });
    expect(reading.cases.map(({ code, position, list }) => [code, position, list])).toEqual([
      ['L1-1', 1, 'L1'],
      ['L1-2', 2, 'L1'],
      ['L1-3', 3, 'L1'],
      ['L2-1', 1, 'L2'],
      ['L2-2', 2, 'L2'],
      ['L3-1', 1, 'L3'],
    ]);
    const dated = read('date,no,rhexis\n2025-03-01,1,60\n2025-03-01,2,61\n2025-03-08,1,62\n2025-03-08,2,63');
    expect(dated.cases.map(({ code }) => code)).toEqual(['L1-1', 'L1-2', 'L2-1', 'L2-2']);
    expect(dated.lists.map(({ when }) => when)).toEqual([
      { kind: 'date', date: '2025-03-01' },
      { kind: 'date', date: '2025-03-08' },
    ]);
  });

  it('lets a heading be changed by hand', () => {
    const text = 'case,rhexis,mystery\n1,60,20\n2,61,22';
    expect(read(text).mapping.find(({ from }) => from === 'mystery')).toMatchObject({
      key: 'column:mystery',
      value: 'leave',
    });
    const told = read(text, { 'column:mystery': 'step-time:hydrodissection' });
    expect(lengths(told.cases[0], 'hydrodissection')).toEqual([20]);
    expect(told.mapping.find(({ from }) => from === 'mystery')).toMatchObject({ how: 'chosen' });
    expect(told.columnOptions.map(({ value }) => value)).toContain('step-time:hydrodissection');
    expect(
      lengths(
        read(text, { 'column:rhexis': 'leave', 'column:mystery': 'step-time:hydrodissection' }).cases[0],
        'capsulorhexis',
      ),
    ).toEqual([]);
  });

  it('leaves a column that holds no times, and says so once', () => {
    const reading = read('case,rhexis,phaco\n1,60,divide\n2,61,chop\n3,62,chop\n4,63,flip');
    expect(reading.problems).toMatchObject([{ row: null, column: 'phaco', weight: 'queried' }]);
    expect(reading.cases).toHaveLength(4);
  });

  it('passes over a title and blank rows above the headings', () => {
    const reading = read('My audit 2025;;\n;;\ncase;rhexis;phaco\n1;60;100\n2;61;101');
    expect(reading.cases).toHaveLength(2);
    expect(reading.cases[0]?.row).toBe(4);
    expect(reading).toMatchObject({ rowsIn: 3, rowsTaken: 2, rowsNamed: 1 });
  });

  it('gives codes where no column has one', () => {
    const reading = read('rhexis,phaco\n60,100\n61,101');
    expect(reading.cases.map(({ code }) => code)).toEqual(['C1', 'C2']);
  });
});
