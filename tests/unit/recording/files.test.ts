import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  chaptersOf,
  clipsAsCsv,
  clipsAsWebvtt,
  cuesOf,
  editsFromChapters,
  emptyLog,
  edited,
  fingerprintOf,
  canBeRead,
  marksOf,
  readingFrom,
  readingOf,
  writeWebvtt,
} from '../../../src/lib/recording';
import { phaco } from '../intake/procedures';

const names = { steps: phaco.steps };
const place = fc.integer({ min: 0, max: 40_000_000 }).map((value) => value / 1000);

describe('chapters', () => {
  it('go out and come back exact to a millisecond', () => {
    const typed = fc
      .record({
        stepId: fc.constantFrom(...phaco.steps.map(({ id }) => id)),
        kind: fc.constantFrom('step' as const, 'waiting' as const, 'protected' as const),
        from: place,
        length: fc.integer({ min: 1, max: 7_000_000 }),
      })
      .map(({ stepId, kind, from, length }) => ({
        do: 'typed' as const,
        kind,
        stepId: kind === 'waiting' && length % 2 === 0 ? null : stepId,
        reason: kind === 'waiting' ? 'machine' : null,
        from,
        to: (Math.round(from * 1000) + length) / 1000,
      }));
    fc.assert(
      fc.property(fc.array(typed, { minLength: 1, maxLength: 20 }), (edits) => {
        const marks = marksOf(edits.reduce(edited, emptyLog));
        const back = editsFromChapters(chaptersOf(marks, names), names);
        expect(back?.refused).toEqual([]);
        const inOrder = [...edits].sort((a, b) => a.from - b.from || a.to - b.to);
        expect(back?.edits).toEqual(inOrder);
      }),
      { numRuns: 300 },
    );
  });

  it('name what they do not take', () => {
    const text = `WEBVTT

00:41.200 --> 00:52.000
Side port

1:00:00.000 --> 00:02.000
Capsulorhexis

00:01:00.000 --> 00:00:02.000
Capsulorhexis

00:02:00.000 --> 00:02:02.000
Lunch

00:03:00.000 --> 00:03:04.500
rhexis
`;
    expect(editsFromChapters(text, names)).toEqual({
      edits: [
        { do: 'typed', kind: 'step', stepId: 'side-port', reason: null, from: 41.2, to: 52 },
        { do: 'typed', kind: 'step', stepId: 'capsulorhexis', reason: null, from: 180, to: 184.5 },
      ],
      refused: [
        { row: 9, text: 'Capsulorhexis' },
        { row: 12, text: 'Lunch' },
      ],
    });
    expect(editsFromChapters('1\n00:00:01,000 --> 00:00:02,000\nSide port', names)).toBe(null);
    expect(editsFromChapters('WEBVTT\n\nNOTE nothing\n', names)).toBe(null);
  });

  it('of any odd text are read or refused, and nothing is lost: cues = taken + named', () => {
    const odd = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc
        .array(
          fc.constantFrom(
            '\n',
            '\r',
            ' --> ',
            '00:01.000',
            '99:59:59.999',
            '‮',
            '<v',
            '>',
            '&amp;',
            ' · ',
            'Side port',
            '\0',
          ),
          { maxLength: 30 },
        )
        .map((bits) => bits.join('')),
    );
    fc.assert(
      fc.property(odd, (text) => {
        const file = `WEBVTT\n${text}`;
        const read = editsFromChapters(file, names);
        expect((read?.edits.length ?? 0) + (read?.refused.length ?? 0)).toBe(cuesOf(file).length);
      }),
      { numRuns: 10_000 },
    );
  });
});

describe('WebVTT', () => {
  // The escapes of the W3C's "WebVTT", section 4.2.2: ampersand, less-than and greater-than signs.
  it('keeps text and times through a file', () => {
    const cue = fc.record({
      start: place,
      text: fc.stringMatching(/^[A-Za-z&<>;·–]{1,12}$/),
    });
    fc.assert(
      fc.property(fc.array(cue, { maxLength: 8 }), (drawn) => {
        const cues = drawn.map((one) => ({ ...one, end: (Math.round(one.start * 1000) + 1) / 1000 }));
        const back = cuesOf(writeWebvtt(cues)).map(({ start, end, text }) => ({ start, end, text }));
        expect(back).toEqual(cues.map(({ start, end, text }) => ({ start, end, text })));
      }),
      { numRuns: 300 },
    );
  });
});

describe('a clip list', () => {
  const clips = [
    { code: '=F125', step: 'Capsulorhexis', from: 131, to: 216.04, checkpoint: 'Flap folded over, "flat"' },
    { code: 'F142', step: 'Capsulorhexis', from: 10, to: 12, checkpoint: '' },
  ];
  it('as a table: no cell is a formula, quotes are doubled', () => {
    expect(clipsAsCsv(clips)).toBe(
      `case_id,step,from_s,to_s,checkpoint\r\n'=F125,Capsulorhexis,131,216.04,"Flap folded over, ""flat"""\r\nF142,Capsulorhexis,10,12,\r\n`,
    );
  });
  it('as WebVTT: the step and what to look at', () => {
    expect(cuesOf(clipsAsWebvtt(clips)).map(({ start, end, text }) => [start, end, text])).toEqual([
      [131, 216.04, 'Capsulorhexis · Flap folded over, "flat"'],
      [10, 12, 'Capsulorhexis'],
    ]);
  });
});

describe('a reading', () => {
  it.each([
    [258.64, 0, '4:18'],
    [258.64, 1, '4:18.6'],
    [258.64, 3, '4:18.640'],
    [3723.5, 1, '1:02:03.5'],
    [0, 1, '0:00.0'],
    [59.9996, 3, '1:00.000'],
  ] as const)('%d s with %d places is %s', (seconds, places, words) => {
    expect(readingOf(seconds, places)).toBe(words);
  });
  it('is read back to the millisecond', () => {
    fc.assert(
      fc.property(place, (seconds) => {
        expect(readingFrom(readingOf(seconds, 3))).toBe(seconds);
      }),
    );
    for (const text of ['', '1:60', '1:61:00', '-3', '1:2:3:4', 'four', '1e3', '1,2345'])
      expect(readingFrom(text)).toBe(null);
    expect(readingFrom('1:23,5')).toBe(83.5);
  });
});

describe('a fingerprint', () => {
  const bytes = (size: number, at: number) => {
    const all = new Uint8Array(size);
    if (at < size) all[at] = 1;
    return new Blob([all]);
  };
  it('is that of both ends and the size', async () => {
    const size = 3 << 20;
    const first = await fingerprintOf(bytes(size, 5));
    expect(first).toMatch(/^[0-9a-f]{64}$/);
    expect(await fingerprintOf(bytes(size, 5))).toBe(first);
    expect(await fingerprintOf(bytes(size, 6))).not.toBe(first);
    expect(await fingerprintOf(bytes(size, size - 3))).not.toBe(await fingerprintOf(bytes(size, size - 4)));
    expect(await fingerprintOf(bytes(size + 1, 5))).not.toBe(first);
    // The middle is not read: four gigabytes take as long as three megabytes.
    expect(await fingerprintOf(bytes(size, 1.5 * (1 << 20)))).toBe(await fingerprintOf(bytes(size, size)));
  });
  it('of a short file holds all of it, and is that of SHA-256 over it and its size', async () => {
    // echo -n 'abc3' | sha256sum
    const known = await crypto.subtle.digest('SHA-256', new TextEncoder().encode('abc3'));
    const hex = [...new Uint8Array(known)].map((one) => one.toString(16).padStart(2, '0')).join('');
    expect(await fingerprintOf(new Blob(['abc']))).toBe(hex);
  });
  it('of a file that is gone is none', async () => {
    const gone = {
      size: 10,
      slice: () => ({ arrayBuffer: () => Promise.reject(new Error('NotFoundError')) }) as unknown as Blob,
    };
    const empty = { size: 10, slice: () => new Blob([]) };
    expect(await fingerprintOf(gone)).toBe(null);
    expect(await fingerprintOf(empty)).toBe(null);
    expect([await canBeRead(gone), await canBeRead(empty), await canBeRead(new Blob(['a']))]).toEqual([
      false,
      false,
      true,
    ]);
  });
});
