import Ajv from 'ajv';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { referencePacketSchema, type Case, type FactValue } from '../../../src/lib/model';
import { makePacket } from '../../../src/lib/rooms/packet/make-packet';
import { inPacket, notInPacket } from '../../../src/lib/rooms/packet/packet-view';
import { poolRare } from '../../../src/lib/rooms/packet/pool-rare';
import { readPacket } from '../../../src/lib/rooms/packet/read-packet';
import { noPacketWords } from '../../../src/lib/words/packet';
import { aCase, aRecord, smallProcedure } from '../../made-up/record';

const nuclei = (hard: number, of: number) =>
  Array.from({ length: of }, (_, n) =>
    aCase(n + 1, {
      listId: `list-${(n % 3) + 1}`,
      facts: { nucleus: n < hard ? 'hard' : 'soft', still: n % 2 === 0, 'axial-length': 23.2 + (n % 2) },
    }),
  );
const made = (cases: readonly Case[]) => makePacket(aRecord({ cases: [...cases] }), smallProcedure);
const packetOf = (cases: readonly Case[]) => {
  const answer = made(cases);
  if ('because' in answer) throw new Error('no packet');
  return answer;
};
const here = { procedures: [smallProcedure], references: [] };

describe('a packet', () => {
  it('holds times and kinds of eye, and nothing by which a case or a day could be known again', () => {
    const cases = nuclei(6, 12);
    const { packet } = packetOf(cases);
    expect(packet.cases).toHaveLength(12);
    const text = JSON.stringify(packet);
    for (const { id, code, listId } of cases)
      for (const told of [id, `"${code}"`, listId ?? '']) expect(text).not.toContain(told);
    expect(text).not.toMatch(/\d{4}-\d{2}/);
    expect([...new Set(packet.cases.map(({ list }) => list))].sort()).toEqual([1, 2, 3]);
    expect(Object.keys(packet.cases[0] ?? {})).toEqual(['list', 'facts', 'stepSeconds']);
  });

  it('is the same whatever the order of the cases in time', () => {
    const cases = nuclei(6, 12).map((one, n) => ({
      ...one,
      stretches: one.stretches.map((each) => ({ ...each, start: null, end: null, seconds: 30 + ((7 * n) % 12) })),
    }));
    const turned = cases.map((one, n) => ({ ...one, sequence: 12 - n })).reverse();
    expect(packetOf(turned).packet).toEqual(packetOf(cases).packet);
  });

  it('fits the JSON Schema that is published, as another library reads it', () => {
    const schema = z.toJSONSchema(referencePacketSchema, { io: 'input', target: 'draft-7' });
    const fits = new Ajv().compile(schema);
    expect(fits(packetOf(nuclei(6, 12)).packet)).toBe(true);
    expect(fits({ ...packetOf(nuclei(6, 12)).packet, surgeon: 'somebody' })).toBe(false);
  });

  it('says who stays out: left out, kept as it is, invented, without a time', () => {
    const cases = nuclei(6, 16);
    const now = '2026-01-01T10:00:00Z';
    const some = cases.map((one, n) =>
      n === 0
        ? { ...one, leftOut: { reason: 'other' as const, timesSeen: true, at: now } }
        : n === 1
          ? { ...one, keptAsItIs: { since: now, why: 'a claim' } }
          : n === 2
            ? { ...one, invented: true }
            : n === 3
              ? { ...one, stretches: [] }
              : one,
    );
    const answer = packetOf(some);
    expect(answer.packet.cases).toHaveLength(12);
    expect(answer.casesOut).toEqual({ leftOut: 1, keptAsItIs: 1, hidden: 0, untimed: 1 });
  });

  it('is not made of fewer than ten cases, nor of a step timed in fewer than five', () => {
    expect(made(nuclei(5, 9))).toMatchObject({ because: 'few', cases: 9 });
    const cases = nuclei(6, 12).map((one, n) =>
      n < 4 ? one : { ...one, stretches: one.stretches.filter(({ stepId }) => stepId !== 'cortex') },
    );
    const answer = packetOf(cases);
    expect(answer.stepsOut).toEqual([{ id: 'cortex', cases: 4 }]);
    expect(JSON.stringify(answer.packet)).not.toContain('cortex');
    expect(notInPacket(answer, smallProcedure).join(' ')).toContain('Cortex aspiration: timed in 4 cases');
  });
});

describe('rare facts', () => {
  it('are pooled with those not entered', () => {
    const { values, about } = poolRare(smallProcedure.facts[0] ?? { id: '', kind: 'choice' }, [
      ...Array.from({ length: 3 }, () => 'hard'),
      ...Array.from({ length: 20 }, () => 'soft'),
      undefined,
      undefined,
    ]);
    expect(about).toEqual({
      factId: 'nucleus',
      given: [{ value: 'soft', cases: 20 }],
      notEntered: 5,
      pooled: [{ value: 'hard', cases: 3 }],
    });
    expect(values.filter((value) => value === undefined)).toHaveLength(5);
  });

  it('never stand for fewer than five, whatever the record', () => {
    const value = fc.oneof(
      fc.constantFrom<FactValue | undefined>('a', 'b', 'c', true, false, undefined),
      fc.integer({ min: 20, max: 24 }),
    );
    fc.assert(
      fc.property(fc.array(value, { maxLength: 60 }), (values) => {
        const { values: out, about } = poolRare({ id: 'x', kind: 'number' }, values);
        for (const each of new Set(out))
          if (each !== undefined) expect(out.filter((one) => one === each).length).toBeGreaterThanOrEqual(5);
        // What was pooled does not stand out either, unless nothing of the fact is left at all.
        if (about.pooled.length > 0 && about.given.length > 0) expect(about.notEntered).toBeGreaterThanOrEqual(5);
        expect(about.given.reduce((sum, { cases }) => sum + cases, 0) + about.notEntered).toBe(values.length);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('a packet from a colleague', () => {
  const text = (change: (packet: Record<string, unknown>) => unknown = (packet) => packet) =>
    JSON.stringify(change(packetOf(nuclei(6, 12)).packet as unknown as Record<string, unknown>));

  it('is read as it went out: both sides are told the same', () => {
    const { packet } = packetOf(nuclei(6, 12));
    const read = readPacket(JSON.stringify(packet), here);
    if ('because' in read) throw new Error(noPacketWords(read));
    expect(read.cases).toEqual(packet.cases.map((one) => ({ reader: 'R1', ...one })));
    expect(inPacket({ ...packet, cases: read.cases.map(({ reader: _, ...one }) => one) }, smallProcedure)).toEqual(
      inPacket(packet, smallProcedure),
    );
    expect(inPacket(packet, smallProcedure)).toMatchObject({
      cases: 12,
      lists: 3,
      facts: [
        { label: 'Nucleus', values: expect.arrayContaining(['hard: 6', 'soft: 6']) },
        { label: 'Still', values: expect.arrayContaining(['yes: 6', 'no: 6']) },
        { label: 'Axial length', values: expect.arrayContaining(['23: 6', '24: 6']) },
      ],
    });
  });

  it('is known again', () => {
    const read = readPacket(text(), here);
    if ('because' in read) throw new Error('not read');
    const set = {
      id: 'reference-1',
      label: 'Theirs',
      procedureId: 'small',
      agreedAt: '',
      cases: read.cases,
      invented: false,
    };
    expect(readPacket(text(), { ...here, references: [set] })).toMatchObject({ there: 'Theirs' });
  });

  it('of other clocks, steps and facts says so', () => {
    const read = readPacket(
      text((packet) => ({
        ...packet,
        steps: [
          { id: 'side-port', label: 'Side port', starts: 'the blade is seen', ends: 'it is gone' },
          { id: 'polish', label: 'Polishing', starts: 'a', ends: 'b' },
        ],
        facts: [{ id: 'pupil', label: 'Pupil', levels: [] }],
      })),
      here,
    );
    expect(read).toMatchObject({
      otherClocks: [{ label: 'Side port', theirs: { starts: 'the blade is seen' } }],
      stepsUnknown: ['Polishing'],
      factsUnknown: ['Pupil'],
    });
  });

  it.each([
    ['', 'empty', /Choose the packet/],
    ['case_id,step\n1,2', 'no-json', /not JSON/],
    [text().slice(0, 300), 'no-json', /cut off/],
    ['{"format":"other"}', 'other-format', /not a packet/],
    ['null', 'other-format', /not a packet/],
    [text((packet) => ({ ...packet, surgeon: 'Dr X' })), 'field', /changed or damaged/],
    [text((packet) => ({ ...packet, cases: (packet['cases'] as object[]).slice(0, 9) })), 'few', /9 cases/],
    [
      text((packet) => ({ ...packet, procedure: { id: 'other', name: 'Another operation' } })),
      'procedure',
      /Another operation/,
    ],
    [text().replace(/"side-port":\d+/, '"side-port":-3'), 'field', /stepSeconds/],
    [text().replace(/"side-port":\d+/, '"side-port":1e999'), 'field', /stepSeconds/],
  ] as const)('that is none is refused: %.40s', (odd, because, words) => {
    const read = readPacket(odd, here);
    expect(read).toMatchObject({ because });
    if ('because' in read) expect(noPacketWords(read)).toMatch(words);
  });

  it('whatever its bytes, is read or refused with a sentence', () => {
    const bits = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      '"',
      ':',
      ',',
      'format',
      'cases',
      '1e308',
      '-0',
      '\u202e',
      '\u0000',
      'null',
      text(),
    );
    fc.assert(
      fc.property(fc.array(bits, { maxLength: 12 }), (parts) => {
        const read = readPacket(parts.join(''), here);
        if ('because' in read) expect(noPacketWords(read).length).toBeGreaterThan(30);
        else expect(read.cases.length).toBeGreaterThanOrEqual(10);
      }),
      { numRuns: 2000 },
    );
  });
});
