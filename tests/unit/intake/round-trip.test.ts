import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readAudit, writeChapters, writingCases, writingStretches } from '../../../src/lib/intake';
import { atOnce } from '../../../src/lib/turns';
import { caseSchema, type Case, type ListRecord, type NewCase } from '../../../src/lib/model';
import { plainList } from '../../made-up/plain';
import { phaco, procedures } from './procedures';
import { read } from './reading';

const text = fc
  .stringMatching(/^[=+\-@'A-Za-z0-9;,":.äß€ \n]{1,20}$/)
  .filter((one) => one.trim() === one && !/^\W*$/.test(one));
const stepIds = phaco.steps.map(({ id }) => id);
const partIds = phaco.steps.flatMap(({ protectedParts }) => protectedParts.map(({ id }) => id));
const hands = fc.constantFrom('mine', 'someone-else', 'taken-over', 'shared');
const seconds = fc.integer({ min: 1, max: 600_000 }).map((value) => value / 1000);

const event = fc.record({
  kind: fc.oneof(
    fc.constantFrom(...phaco.eventKinds.map(({ id }) => id)),
    text.filter((one) => !/^(no|none|n|nil|false|0|yes|y|true|1|x|\+|na|nk|seen|done)$/i.test(one)),
  ),
  stepId: fc.option(fc.constantFrom(...stepIds)),
  serious: fc.boolean(),
  nearMiss: fc.boolean(),
  noticed: fc.constantFrom('during', 'same-day', 'later', 'not-known'),
  reviewed: fc.option(fc.record({ at: fc.constant('2025-03-04T05:06:07.000Z'), text })),
});

/** Stretches on a clock, at least a second apart, so that none is joined with the next. */
const clocked = fc
  .array(
    fc.record({
      stepId: fc.constantFrom(...stepIds),
      gap: seconds,
      length: seconds,
      kind: fc.constantFrom('step', 'waiting', 'protected'),
    }),
    { minLength: 1, maxLength: 12 },
  )
  .map((drawn) => {
    let clock = 0;
    return drawn.map(({ stepId, gap, length, kind }, index) => {
      const start = Math.round((clock + 1 + gap) * 1000) / 1000;
      const end = Math.round((start + length) * 1000) / 1000;
      clock = end;
      const part = phaco.steps.find(({ id }) => id === stepId)?.protectedParts[0]?.id;
      const as = index === 0 || (kind === 'protected' && !part) ? 'step' : kind;
      return {
        stepId,
        start,
        end,
        seconds: Math.round((end - start) * 1000) / 1000,
        kind: as,
        reason: as === 'protected' ? (part ?? null) : as === 'waiting' ? 'machine' : null,
      } as Case['stretches'][number];
    });
  });
const alone = fc.uniqueArray(fc.constantFrom(...stepIds), { minLength: 1, maxLength: 8 }).chain((ids) =>
  fc.tuple(
    ...ids.map((stepId) =>
      seconds.map((length): Case['stretches'][number] => ({
        stepId,
        start: null,
        end: null,
        seconds: length,
        kind: 'step',
        reason: null,
      })),
    ),
  ),
);

const facts = fc.record(
  {
    nucleus: fc.constantFrom('soft', 'hard', 'white'),
    pupil: fc.constantFrom('small', 'device'),
    still: fc.boolean(),
    toric: fc.boolean(),
    'axial-length': fc.integer({ min: 200, max: 300 }).map((value) => value / 10),
  },
  { requiredKeys: [] },
);

const madeCase = (stretches: fc.Arbitrary<Case['stretches']>) =>
  fc
    .record({
      position: fc.option(fc.integer({ min: 1, max: 40 })),
      facts,
      whole: hands,
      steps: fc.dictionary(fc.constantFrom(...stepIds), hands, { maxKeys: 3 }),
      stretches,
      returnsNoted: fc.dictionary(fc.constantFrom(...stepIds), fc.integer({ min: 0, max: 9 }), { maxKeys: 2 }),
      events: fc.option(fc.array(event, { maxLength: 3 })),
      protectedSeen: fc.dictionary(fc.constantFrom(...partIds), fc.boolean(), { maxKeys: 3 }),
      energy: fc.option(
        fc.record({
          value: fc.integer({ min: 0, max: 500 }).map((value) => value / 10),
          unit: fc.constantFrom('s', '%', 'machine units'),
        }),
      ),
      list: fc.integer({ min: 1, max: 3 }),
    })
    .map(({ whole, steps, list, ...rest }) => ({
      ...rest,
      list,
      hands: { whole, steps: Object.fromEntries(Object.entries(steps).filter(([, one]) => one !== whole)) },
    }));

const lists: ListRecord[] = [1, 2, 3].map((number) => ({
  ...plainList(),
  id: `list-${number}`,
  label: `list ${number}`,
  when: { kind: 'date', date: `2025-03-0${number}` },
}));

const record = (
  drawn: readonly Omit<ReturnType<typeof madeCase> extends fc.Arbitrary<infer T> ? T : never, never>[],
): Case[] =>
  drawn.map(({ list, ...rest }, index) =>
    caseSchema.parse({
      ...rest,
      id: `case-${index + 1}`,
      code: `-code ${index + 1}`,
      procedureId: 'phaco',
      listId: `list-${list}`,
      sequence: index + 1,
      orderKnown: true,
      factChanges: [],
      recording: null,
      source: { kind: 'typed' },
      leftOut: null,
      keptAsItIs: null,
      version: 1,
      history: [],
    }),
  );

/** What a CSV of ours carries of a case. */
const carried = ({
  code,
  procedureId,
  position,
  facts: of,
  hands: whose,
  stretches,
  returnsNoted,
  events,
  protectedSeen,
  energy,
}: Case | NewCase) =>
  structuredClone({
    code,
    procedureId,
    position,
    facts: of,
    hands: whose,
    stretches,
    returnsNoted,
    events,
    protectedSeen,
    energy,
  });
const byCode = <T extends { code: string }>(all: readonly T[]): T[] =>
  [...all].sort((a, b) => a.code.localeCompare(b.code));

const inOne =
  (writing: typeof writingStretches) =>
  (...given: Parameters<typeof writingStretches>) =>
    atOnce(writing(...given));

describe('what goes out comes back the same', () => {
  const check = (drawn: Parameters<typeof record>[0], writing: typeof writingStretches) => {
    const write = inOne(writing);
    const cases = record(drawn);
    const csv = write(cases, { procedure: phaco, lists, dates: 'day' });
    const reading = read(csv);
    expect(reading.problems).toEqual([]);
    expect(byCode(reading.cases).map(carried)).toEqual(byCode(cases).map(carried));
    expect(reading.cases.map(({ list }) => reading.lists.find(({ key }) => key === list)?.label)).toEqual(
      reading.cases.map(
        ({ code }) => lists.find(({ id }) => id === cases.find((one) => one.code === code)?.listId)?.label,
      ),
    );
    // And once more: the second file is the first, byte for byte.
    const again = write(
      reading.cases.map(({ list, row: _row, ...one }) => ({
        ...one,
        listId: lists.find(({ label }) => label === reading.lists.find(({ key }) => key === list)?.label)?.id ?? null,
        factChanges: [],
        source: { kind: 'typed' as const },
        leftOut: null,
        keptAsItIs: null,
        invented: false,
        version: 1,
        history: [],
      })),
      { procedure: phaco, lists, dates: 'day' },
    );
    expect(again.split('\n').sort()).toEqual(csv.split('\n').sort());
  };

  it('one row a stretch, with clock readings', () => {
    fc.assert(
      fc.property(fc.array(madeCase(clocked), { minLength: 1, maxLength: 4 }), (drawn) =>
        check(drawn, writingStretches),
      ),
      { numRuns: 40 },
    );
  });

  it('one row a stretch, lengths alone', () => {
    fc.assert(
      fc.property(fc.array(madeCase(alone), { minLength: 1, maxLength: 4 }), (drawn) => check(drawn, writingStretches)),
      { numRuns: 30 },
    );
  });

  it('one row a case, lengths alone', () => {
    fc.assert(
      fc.property(
        fc.array(
          madeCase(
            alone.map((all) =>
              [...all].sort((a, b) => stepIds.indexOf(a.stepId ?? '') - stepIds.indexOf(b.stepId ?? '')),
            ),
          ),
          { minLength: 1, maxLength: 4 },
        ),
        (drawn) => check(drawn, writingCases),
      ),
      { numRuns: 30 },
    );
  });

  it('runs no cell as a formula', () => {
    const [one] = record(fc.sample(madeCase(alone), { numRuns: 1, seed: 1 }));
    const cases = [
      {
        ...(one as Case),
        code: '=HYPERLINK("http://x")',
        events: [
          {
            kind: '@SUM(A1)',
            stepId: null,
            serious: false,
            nearMiss: false,
            noticed: 'during' as const,
            reviewed: null,
          },
        ],
      },
    ];
    for (const csv of [
      inOne(writingStretches)(cases, { procedure: phaco, lists }),
      inOne(writingCases)(cases, { procedure: phaco, lists }),
    ]) {
      expect(csv).toContain(`"'=HYPERLINK(""http://x"")"`);
      expect(csv).toContain(`'@SUM(A1)`);
      expect(csv.split(/[,\n]/).filter((cell) => /^"?[=+\-@]/.test(cell))).toEqual([]);
      expect(read(csv).cases[0]?.code).toBe('=HYPERLINK("http://x")');
    }
  });

  it('gives months, not days, unless asked', () => {
    const csv = inOne(writingStretches)(record(fc.sample(madeCase(alone), { numRuns: 3, seed: 2 })), {
      procedure: phaco,
      lists,
    });
    expect(csv).toContain(',2025-03,');
    expect(csv).not.toMatch(/,2025-03-\d\d,/);
  });
});

describe('chapter marks', () => {
  it('come in as one case, a cue a stretch', () => {
    const vtt =
      'WEBVTT - made up\n\nNOTE nothing\n\n1\n00:00:10.000 --> 00:00:40.500 line:0\nRhexis\n\n00:40.500 --> 01:00.000\nHydro &amp; rotation\n\n00:01:05.000 --> 00:01:09.000\n– · waiting · machine\n';
    const reading = readAudit({ text: vtt, fileName: 'chapters.vtt', procedures });
    expect(reading).toMatchObject({
      layout: 'chapters',
      rowsIn: 3,
      rowsTaken: 3,
      problems: [],
      cases: [{ code: 'C1' }],
    });
    expect(reading.cases[0]?.stretches).toEqual([
      { stepId: 'capsulorhexis', start: 10, end: 40.5, seconds: 30.5, kind: 'step', reason: null },
      { stepId: 'hydrodissection', start: 40.5, end: 60, seconds: 19.5, kind: 'step', reason: null },
      { stepId: null, start: 65, end: 69, seconds: 4, kind: 'waiting', reason: 'machine' },
    ]);
    expect(readAudit({ text: vtt, fileName: 'x.vtt', procedures, choices: { code: 'A7' } }).cases[0]?.code).toBe('A7');
    expect(readAudit({ text: 'WEBVTT\n', fileName: 'x.vtt', procedures })).toMatchObject({
      cases: [],
      problems: [{ why: expect.stringMatching(/no chapters/) }],
    });
  });

  it('go out and come back', () => {
    fc.assert(
      fc.property(madeCase(clocked), (drawn) => {
        const [one] = record([drawn]);
        const back = readAudit({ text: writeChapters(one as Case, phaco), fileName: 'x.vtt', procedures: [phaco] });
        expect(back.cases[0]?.stretches).toEqual(one?.stretches);
      }),
      { numRuns: 30 },
    );
  });
});
