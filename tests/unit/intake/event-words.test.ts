import { describe, expect, it } from 'vitest';
import { question, read } from './reading';

/** One row a case: its code, one time, and what stands under the events. */
const sheet = (cells: readonly string[], heading = 'Complication') =>
  [`case_id,Rhexis,Hydro,Phaco,${heading}`, ...cells.map((cell, index) => `A${index + 1},40,25,160,"${cell}"`)].join(
    '\n',
  );
const times = (count: number, cell: string): string[] => Array.from({ length: count }, () => cell);
const eventsOf = (text: string, choices: Record<string, string> = {}) =>
  read(text, choices).cases.map(({ events }) => events?.map(({ kind }) => kind) ?? null);

/** What is asked about the words under the events. */
const askedOf = (text: string) => read(text).questions.flatMap(({ id }) => (id.startsWith('event') ? [id] : []));

describe('an empty cell under the events', () => {
  const text = sheet([...times(4, ''), 'none', 'PCR']);

  it('is asked about once, with the cases counted, and is not answered until somebody says so', () => {
    const asked = question(read(text), 'event-empty');
    expect(asked?.question).toBe('4 cases have an empty cell under "Complication": no event, or not asked?');
    expect(asked).toMatchObject({ guess: 'not-asked', mustAnswer: false });
    expect(eventsOf(text)).toEqual([null, null, null, null, [], ['posterior-capsule-tear']]);
  });

  it('is none in all of them when so answered', () => {
    expect(eventsOf(text, { 'event-empty': 'none' })).toEqual([[], [], [], [], [], ['posterior-capsule-tear']]);
  });

  it('is counted by cases, not by rows, where a case has many', () => {
    const rows = 'case_id,step,seconds,event\nA1,Rhexis,30,\nA1,Hydro,20,\nA2,Rhexis,31,\nA2,Hydro,22,PCR';
    expect(question(read(rows), 'event-empty')?.question).toMatch(/^1 case has an empty cell/);
    expect(eventsOf(rows, { 'event-empty': 'none' })).toEqual([[], ['posterior-capsule-tear']]);
  });

  it('counts no case that is not taken: 3 empty cells, one in a row without a time', () => {
    const rows = 'case_id,Rhexis,event\nA1,30,\nA2,,\nA3,31,\nA4,32,none';
    expect(question(read(rows), 'event-empty')?.question).toMatch(/^2 cases have/);
  });

  it('is not asked about in a file this tool wrote, nor where no column asks', () => {
    const ours =
      'case_id,procedure,list,date,position,case_hands,event,capsulorhexis\nA1,phaco,,,,mine,,40\nA2,phaco,,,,mine,none,41';
    expect(question(read(ours), 'event-empty')).toBeUndefined();
    expect(eventsOf(ours)).toEqual([null, []]);
    expect(read('case_id,Rhexis,Hydro\nA1,30,20').questions.map(({ id }) => id)).not.toContain('event-empty');
  });

  it('is not asked about on the list sheet, which says that 0 is none', () => {
    const rows = 'Place,Own code,Nucleus,Hands,Event\n1,B1,2,M,\n2,B2,2,M,0';
    expect(question(read(rows), 'event-empty')).toBeUndefined();
    expect(eventsOf(rows)).toEqual([null, []]);
  });

  it('on a row without times on which nothing is filled in, stays unanswered whatever is said', () => {
    const rows = 'Own code,Nucleus,Hands,Event\nB1,2,M,\nB2,,,\nB3,3,M,0';
    const reading = read(rows, { 'event-empty': 'none' });
    expect(question(reading, 'event-empty')?.question).toMatch(/^1 case has/);
    expect(reading.cases.map(({ code, events }) => [code, events])).toEqual([
      ['B1', []],
      ['B3', []],
    ]);
    expect(reading.problems.map(({ row }) => row)).toEqual([3]);
  });
});

describe('words for none', () => {
  // Each as a native speaker writes it in a sheet; from memory, reviewed by nobody yet.
  const none: Record<string, string[]> = {
    English: ['none', 'No', 'nil', 'uneventful', 'No complications', 'without complication'],
    German: ['keine', 'Nein', 'ohne', 'o. B.', 'komplikationslos', 'Keine Komplikationen', 'unauffällig'],
    French: ['aucune', 'Néant', 'non', 'RAS', 'sans complication', 'rien à signaler'],
    Spanish: ['ninguna', 'No', 'nada', 'sin complicaciones', 'sin incidencias'],
    Italian: ['nessuna', 'no', 'niente', 'senza complicanze', 'nessuna complicanza'],
    Portuguese: ['nenhuma', 'Não', 'sem complicações', 'sem intercorrências'],
    'Hindi in Latin letters': ['nahi', 'Nahin', 'koi nahi', 'kuch nahin'],
  };
  for (const [language, words] of Object.entries(none))
    it(`are an answer of none in ${language}`, () => {
      const text = sheet([...words, 'PCR']);
      expect(eventsOf(text)).toEqual([...words.map(() => []), ['posterior-capsule-tear']]);
      expect(askedOf(text)).toEqual([]);
    });

  it('include a dash, which is shown and can be taken back', () => {
    const text = sheet(['-', '–', 'PCR', '- ']);
    expect(question(read(text), 'event-dash')?.question).toMatch(/^3 cases have a dash under "Complication"/);
    expect(eventsOf(text)).toEqual([[], [], ['posterior-capsule-tear'], []]);
    expect(eventsOf(text, { 'event-dash': 'not-asked' })).toEqual([null, null, ['posterior-capsule-tear'], null]);
  });

  it('do not include a refusal to say', () => {
    expect(eventsOf(sheet(['n/a', 'unknown', 'not recorded', '?']), { 'event-dash': 'not-asked' })).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });
});

describe('a word that stands in most cells', () => {
  const text = sheet([...times(50, 'OK'), 'PCR']);

  it('is asked about before it becomes fifty serious events, and nothing is taken until then', () => {
    const reading = read(text);
    expect(question(reading, 'event:ok')).toMatchObject({
      question:
        '"OK" stands in 50 cases under "Complication", which is most of the 51 that are filled in. What does it say?',
      mustAnswer: true,
      answered: false,
      guess: 'not-asked',
    });
    expect(reading.ready).toBe(false);
    expect(eventsOf(text).filter((events) => events !== null)).toEqual([['posterior-capsule-tear']]);
  });

  it('becomes what is answered', () => {
    expect(eventsOf(text, { 'event:ok': 'none' }).filter((events) => events?.length === 0)).toHaveLength(50);
    expect(eventsOf(text, { 'event:ok': 'own' }).filter((events) => events?.[0] === 'OK')).toHaveLength(50);
    expect(read(text, { 'event:ok': 'none', serious: 'no' }).ready).toBe(true);
  });

  it('is asked about even where it says yes, and where it names a kind in most of all cases', () => {
    expect(question(read(sheet(times(8, 'yes'))), 'event:yes')?.mustAnswer).toBe(true);
    expect(question(read(sheet([...times(12, 'PCR'), ...times(8, 'none')])), 'event:pcr')?.mustAnswer).toBe(true);
    expect(question(read(sheet([...times(6, 'PCR'), ...times(2, 'none')])), 'event:pcr')).toBeUndefined();
  });
});

describe('words no kind of event is known by', () => {
  it('are matched once a file, in the words of the file', () => {
    const text = sheet(['KR mit GK', 'none', 'KR mit GK', 'Kapselruptur']);
    expect(question(read(text), 'event:kr mit gk')).toMatchObject({
      question: '"KR mit GK" stands in 2 cases under "Complication". Which event is it?',
      guess: 'own',
      mustAnswer: false,
    });
    expect(eventsOf(text)).toEqual([['KR mit GK'], [], ['KR mit GK'], ['posterior-capsule-tear']]);
    expect(eventsOf(text, { 'event:kr mit gk': 'kind:vitreous-loss' })).toEqual([
      ['vitreous-loss'],
      [],
      ['vitreous-loss'],
      ['posterior-capsule-tear'],
    ]);
    expect(eventsOf(text, { 'event:kr mit gk': 'none' })[0]).toEqual([]);
  });

  it('that may name a person are never offered', () => {
    expect(askedOf(sheet(['Dr Agnes Thorn', 'none']))).toEqual([]);
  });
});
