import { describe, expect, it } from 'vitest';
import { lengths, plainCase, question, read, steps } from './reading';

const heading = 'case_id,step,start_s,end_s';

describe('one row a stretch', () => {
  it('reads names people write, and lets the place decide where one name is several steps', () => {
    const reading = read(`${heading}\n${plainCase('A1')}`);
    expect(reading).toMatchObject({
      layout: 'stretches',
      procedureId: 'phaco',
      rowsIn: 10,
      rowsTaken: 10,
      rowsNamed: 0,
      problems: [],
      ready: true,
    });
    expect(steps(reading.cases[0])).toEqual([
      'incision',
      'ovd-fill',
      'capsulorhexis',
      'hydrodissection',
      'nucleus-removal',
      'cortex-aspiration',
      'bag-refill',
      'iol-insertion',
      'ovd-removal',
      'wound-check',
    ]);
    expect(reading.mapping.find(({ from }) => from === 'Visco')).toMatchObject({
      how: 'position',
      to: 'Viscoelastic fill or Bag refill',
      rows: 2,
    });
    expect(reading.questions.map(({ id }) => id)).toEqual(['procedure']);
  });

  it('knows small-incision surgery by its steps', () => {
    const reading = read(
      `${heading}\nM1,Conjunctival peritomy,0,30\nM1,Tunnel,30,90\nM1,Viscoelastic,90,100\nM1,Nucleus delivery,200,240\nM1,Viscoelastic,250,255\nM1,PMMA lens,260,290`,
    );
    expect(reading.procedureId).toBe('sics');
    expect(steps(reading.cases[0])).toEqual([
      'peritomy',
      'scleral-tunnel',
      'side-port-ovd',
      'nucleus-delivery',
      'bag-refill',
      'iol-insertion',
    ]);
  });

  it.each([
    ['capsulorrhexis', 'capsulorhexis'],
    ['CAPSULORHEXIS', 'capsulorhexis'],
    ['Capsulo-rhexis', 'capsulorhexis'],
    ['capsulorhxeis', 'capsulorhexis'],
    ['Rhexis (CCC)', 'capsulorhexis'],
    ['3. Rhexis', 'capsulorhexis'],
    ['Step 4: rhexis time', 'capsulorhexis'],
    ['Hydro dissection', 'hydrodissection'],
    ['hydrodisection', 'hydrodissection'],
    ['Hidrodissección', 'hydrodissection'],
    ['Phakoemulsification', 'nucleus-removal'],
    ['phacoemulsificaton', 'nucleus-removal'],
    ['aspiration of cortex', 'cortex-aspiration'],
    ['removal of viscoelastic', 'ovd-removal'],
    ['IOL insertion (foldable)', 'iol-insertion'],
    ['Stromal hydration and leak test', 'wound-check'],
    ['Kapselpolitur', null],
    ['suction', null],
    ['IOL insertion + OVD removal', null],
  ])('%s is %s', (label, step) => {
    const reading = read(`${heading}\nA1,Hydrodissection,0,10\nA1,${label},500,530`);
    const found = reading.cases[0]?.stretches.find(({ start }) => start === 500)?.stepId ?? null;
    expect(found).toBe(step);
    if (step === null) {
      expect(reading.questions.find(({ id }) => id.startsWith('label:'))).toMatchObject({
        guess: 'leave',
        answer: 'leave',
      });
      expect(reading.problems).toMatchObject([{ row: 3, column: 'step', value: label, weight: 'refused' }]);
    }
  });

  it('takes an unknown label when told what it is, and only then', () => {
    const text = `${heading}\nA1,Rhexis,0,30\nA1,Suction,40,60\nA2,Rhexis,0,30`;
    const asked = read(text);
    expect(asked).toMatchObject({ rowsIn: 3, rowsTaken: 2, rowsNamed: 1 });
    expect(question(asked, 'label:suction')).toMatchObject({ examples: [{ row: 3, text: 'Suction' }], guess: 'leave' });
    const told = read(text, { 'label:suction': 'step:cortex-aspiration' });
    expect(lengths(told.cases[0], 'cortex-aspiration')).toEqual([20]);
    expect(told).toMatchObject({ rowsTaken: 3, rowsNamed: 0, problems: [] });
  });

  it('changes a label that was understood otherwise', () => {
    const text = `${heading}\nA1,Rhexis,0,30\nA1,Polish,40,60`;
    expect(steps(read(text, { 'label:polish': 'step:cortex-aspiration' }).cases[0])).toEqual([
      'capsulorhexis',
      'cortex-aspiration',
    ]);
    expect(read(text, { 'label:polish': 'leave' })).toMatchObject({ rowsTaken: 1, rowsNamed: 1 });
    expect(read(text, { 'label:polish': 'step:no-such-step' }).cases[0]?.stretches).toHaveLength(2);
  });

  it('takes "incision" beside a side port for the main incision, and asks', () => {
    const text = `${heading}\nA1,Side port,0,5\nA1,Incision,20,30\nA1,Rhexis,40,60`;
    const reading = read(text);
    expect(steps(reading.cases[0])).toEqual(['side-port', 'main-incision', 'capsulorhexis']);
    expect(question(reading, 'label:incision')).toMatchObject({ guess: 'step:main-incision' });
    expect(steps(read(text, { 'label:incision': 'step:incision' }).cases[0])[1]).toBe('incision');
    expect(steps(read(`${heading}\nA1,Incision,20,30\nA1,Rhexis,40,60`).cases[0])[0]).toBe('incision');
  });

  it('asks where a name stands between its steps, and goes by the clock, not by the row', () => {
    const between = read(
      `${heading}\nA1,Rhexis,30,60\nA1,Visco,62,70\nA1,Phaco,80,200\nA1,Visco,205,212\nA1,IOL,215,240`,
    );
    expect(steps(between.cases[0])).toEqual([
      'capsulorhexis',
      'ovd-fill',
      'nucleus-removal',
      'bag-refill',
      'iol-insertion',
    ]);
    expect(question(between, 'place:visco')).toMatchObject({ guess: 'ovd-fill', examples: [{ row: 3 }] });
    const left = read(`${heading}\nA1,Rhexis,30,60\nA1,Visco,62,70\nA1,Phaco,80,200`, { 'place:visco': 'leave' });
    expect(left).toMatchObject({ rowsTaken: 2, rowsNamed: 1 });
    const shuffled = read(`${heading}\nA1,IOL,215,240\nA1,Visco,205,212\nA1,Rhexis,30,60\nA1,Visco,10,20`);
    expect(steps(shuffled.cases[0])).toEqual(['ovd-fill', 'capsulorhexis', 'bag-refill', 'iol-insertion']);
  });

  it('joins stretches that touch, not those that do not', () => {
    const text = `${heading}\nA1,Rhexis,0,30\nA1,Rhexis,30,40\nA1,Rhexis,40.9,50\nA1,Rhexis,51,60\nA1,Hydro,60,70\nA1,Rhexis,70,75`;
    expect(lengths(read(text).cases[0], 'capsulorhexis')).toEqual([50, 9, 5]);
    expect(read(text).cases[0]?.stretches[0]).toEqual({
      stepId: 'capsulorhexis',
      start: 0,
      end: 50,
      seconds: 50,
      kind: 'step',
      reason: null,
    });
  });

  it('counts overlapping or repeated stretches of one step once, and says so', () => {
    const reading = read(`${heading}\nA1,Rhexis,0,30\nA1,Rhexis,20,40\nA1,Hydro,50,60\nA1,Hydro,50,60`);
    expect(lengths(reading.cases[0], 'capsulorhexis')).toEqual([40]);
    expect(lengths(reading.cases[0], 'hydrodissection')).toEqual([10]);
    expect(reading.problems).toMatchObject([
      { row: 3, weight: 'queried', why: expect.stringMatching(/overlaps.*row 2/) },
      { row: 5, weight: 'queried', why: expect.stringMatching(/same as row 4/) },
    ]);
  });

  it('reads lengths alone, and both together', () => {
    expect(read('case;step;duration\nA1;Rhexis;83,5\nA1;Hydro;0:42').cases[0]?.stretches).toMatchObject([
      { stepId: 'capsulorhexis', start: null, end: null, seconds: 83.5 },
      { stepId: 'hydrodissection', start: null, end: null, seconds: 42 },
    ]);
    const both = read('case,step,start,end,seconds\nA1,Rhexis,10,40,30.4\nA1,Hydro,50,60,45');
    expect(both.cases[0]?.stretches.map(({ seconds }) => seconds)).toEqual([30.4, 10]);
    expect(both.problems).toMatchObject([{ row: 3, column: 'seconds', value: '45', weight: 'queried' }]);
  });

  it('a protected part named in the step column is one, and no time of its step', () => {
    const { cases } = read('case_id,step,start_s,end_s\nA1,IOL,0,60\nA1,lens identity pause,60,70');
    expect(cases[0]?.stretches).toMatchObject([
      { stepId: 'iol-insertion', kind: 'step', seconds: 60 },
      { stepId: 'iol-insertion', kind: 'protected', seconds: 10 },
    ]);
  });

  it('reads waiting with its reason, protected parts, hands, returned to and events', () => {
    const reading = read(
      `case_id,step,start_s,end_s,kind,reason,hands,went_back,event,event_step
A1,Rhexis,0,40,,,mine,1,PCR,I/A
A1,,40,50,waiting,lens loading,,,,
A1,Gap,50,52,,,,,,
A1,IOL,52,90,step,,trainer,,,
A1,IOL,60,70,kept,lens identity pause,,,,
A1,IOL,72,76,waiting,Sister Agnes away,,,,
A1,Waiting for patient settling,90,95,,,,,,`,
    );
    const [one] = reading.cases;
    expect(one?.stretches.map(({ stepId, kind, reason }) => [stepId, kind, reason])).toEqual([
      ['capsulorhexis', 'step', null],
      [null, 'waiting', 'lens-loading'],
      [null, 'waiting', null],
      ['iol-insertion', 'step', null],
      ['iol-insertion', 'protected', 'lens-identity'],
      ['iol-insertion', 'waiting', 'other'],
      [null, 'waiting', 'patient-settling'],
    ]);
    expect(one).toMatchObject({
      hands: { whole: 'mine', steps: { 'iol-insertion': 'someone-else' } },
      returnsNoted: { capsulorhexis: 1 },
      protectedSeen: { 'lens-identity': true },
      events: [
        {
          kind: 'posterior-capsule-tear',
          stepId: null,
          serious: true,
          nearMiss: false,
          noticed: 'not-known',
          reviewed: null,
        },
      ],
    });
    // "I/A" alone could be either step of an event; a reason nobody knows may name a colleague, so it is not repeated.
    expect(reading.problems).toMatchObject([
      { row: 2, column: 'event_step', value: 'I/A', weight: 'queried' },
      { row: 7, column: 'reason', value: null, weight: 'queried' },
    ]);
    expect(JSON.stringify(reading)).not.toContain('Agnes');
    expect(question(reading, 'serious')).toMatchObject({ guess: 'yes' });
  });

  it('gives no answer about events where no column asks', () => {
    expect(read(`${heading}\n${plainCase('A1')}`).cases[0]?.events).toBeNull();
    const asked = read(
      'case_id,step,seconds,complications\nA1,Rhexis,30,none\nA2,Rhexis,31,\nA3,Rhexis,32,n/a\nA4,Rhexis,33,near miss: run out\nA5,Rhexis,30,posterior capsule tear; vitreous loss',
    );
    expect(
      asked.cases.map(({ events }) => events?.map(({ kind, nearMiss, serious }) => [kind, nearMiss, serious]) ?? null),
    ).toEqual([
      [],
      null,
      null,
      [['anterior-capsule-tear', true, false]],
      [
        ['posterior-capsule-tear', false, true],
        ['vitreous-loss', false, true],
      ],
    ]);
    const wordless = read('case_id,step,seconds,event\nA1,Rhexis,30,PCR; ;vitreous loss').cases[0]?.events;
    expect(wordless?.map(({ kind }) => kind)).toEqual(['posterior-capsule-tear', 'other', 'vitreous-loss']);
    expect(read('case_id,step,seconds,event\nA1,Rhexis,30,PCR', { serious: 'no' }).cases[0]?.events?.[0]?.serious).toBe(
      false,
    );
  });

  it('takes facts of the eye, which must agree within a case', () => {
    const reading = read(
      'case_id,step,seconds,Nucleus,pupil,IFIS,ACD (mm)\nA1,Rhexis,30,Brunescent,small,yes,"2,8"\nA1,Phaco,90,brown,large,,2.8\nA2,Rhexis,30,3,M,no,\nA3,Rhexis,30,cheese,,,deep',
    );
    expect(reading.cases.map(({ facts }) => facts)).toEqual([
      { nucleus: 'very-hard', 'floppy-iris': true, 'chamber-depth': 2.8 },
      { nucleus: 'hard', pupil: 'medium', 'floppy-iris': false },
      {},
    ]);
    expect(reading.problems.map(({ row, column, value }) => [row, column, value])).toEqual([
      [3, 'pupil', 'large'],
      [5, 'Nucleus', 'cheese'],
      [5, 'ACD (mm)', 'deep'],
    ]);
    expect(reading).toMatchObject({ rowsTaken: 4, rowsNamed: 0 });
  });

  it('carries a code down merged cells, when so answered', () => {
    const text = `${heading}\nA1,Rhexis,0,30\n,Hydro,30,50\n,Phaco,50,150\nA2,Rhexis,0,31\n,Hydro,31,55`;
    expect(read(text).cases.map(({ stretches }) => stretches.length)).toEqual([3, 2]);
    expect(read(text, { 'empty-code': 'leave' })).toMatchObject({ rowsTaken: 2, rowsNamed: 3 });
  });

  it('reads clock readings where numbers only rise', () => {
    const rows = (code: string, add: number) =>
      [20, 45, 90, 160, 300].map(
        (value, index) => `${code},${['Incision', 'Visco', 'CCC', 'Hydro', 'Phaco'][index]},${value + add}`,
      );
    const text = ['case,step,time', ...rows('A1', 0), ...rows('A2', 7)].join('\n');
    const reading = read(text);
    expect(question(reading, 'readings')).toMatchObject({ guess: 'readings' });
    expect(lengths(reading.cases[1], 'capsulorhexis')).toEqual([45]);
    expect(reading.cases[1]?.stretches[0]).toMatchObject({ start: 0, end: 27 });
    expect(lengths(read(text, { readings: 'lengths' }).cases[1], 'capsulorhexis')).toEqual([97]);
  });

  it('leaves out all of a step of which one row cannot be read, since a part would look too short', () => {
    const reading = read(`${heading}\nA1,Rhexis,0,30\nA1,Hydro,30,50\nA1,Rhexis,60,x\nA1,Phaco,80,200`);
    expect(steps(reading.cases[0])).toEqual(['hydrodissection', 'nucleus-removal']);
    expect(reading).toMatchObject({ rowsIn: 4, rowsTaken: 2, rowsNamed: 2 });
    expect(reading.problems).toMatchObject([
      { row: 2, why: expect.stringMatching(/Row 4 of the same step/) },
      { row: 4, column: 'end_s', value: 'x' },
    ]);
  });

  it('takes pasted cells without headings, once it is said what each column holds', () => {
    const text = 'A1\tRhexis\t30\nA1\tPhaco\t90\nA2\tRhexis\t31';
    const unread = read(text);
    expect(unread).toMatchObject({ layout: null, rowsIn: 0 });
    expect(unread.mapping.map(({ key, from, value }) => [key, from, value])).toEqual([
      ['column:column 1', 'column 1', 'leave'],
      ['column:column 2', 'column 2', 'leave'],
      ['column:column 3', 'column 3', 'leave'],
    ]);
    expect(unread.columnOptions.map(({ value }) => value)).toEqual(
      expect.arrayContaining(['own:step', 'step-time:capsulorhexis']),
    );
    const told = read(text, {
      'column:column 1': 'own:case',
      'column:column 2': 'own:step',
      'column:column 3': 'own:seconds',
    });
    expect(told).toMatchObject({ layout: 'stretches', rowsIn: 3, rowsTaken: 3, problems: [] });
    expect(told.cases.map(({ code }) => code)).toEqual(['A1', 'A2']);
    expect(told.cases[0]?.row).toBe(1);
  });
});
