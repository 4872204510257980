import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess, assessmentText } from '../../../src/lib/assess';
import {
  caseSchema,
  listRecordSchema,
  type Case,
  type Event,
  type ListRecord,
  type SurgeonRecord,
} from '../../../src/lib/model';
import { length } from '../../made-up/cases';
import { plainCase, plainList } from '../../made-up/plain';
import { goalAfter, operation } from '../../made-up/month';
import { aRecord } from '../../made-up/record';
import * as rooms from './rooms';
import { readingOf } from '../../made-up/reading-of';

const tear: Event = {
  kind: 'tear',
  stepId: 'practised',
  serious: true,
  nearMiss: false,
  noticed: 'not-known',
  reviewed: null,
};
const other = { ...operation, id: 'second', name: 'Second operation' };
const third = { ...operation, id: 'third', name: 'Third operation' };

type Shape = {
  cases: number;
  listSize: number;
  times: 'alike' | 'near' | 'far' | 'outliers';
  steps: 'one' | 'some' | 'all';
  leftOut: 'none' | 'some' | 'all';
  events: 'none asked' | 'all none' | 'only events' | 'mixed' | 'untied';
  facts: 'unknown' | 'some' | 'all';
  days: 'undated' | 'gaps' | 'future' | 'one day';
  codes: 'own' | 'the same';
  procedures: 1 | 3;
  hands: 'mine' | 'shared' | 'others';
  byHand: boolean;
  untimed: boolean;
  operated: number | null;
  goal: boolean;
};

const shapes = fc.record<Shape>({
  cases: fc.constantFrom(1, 2, 5, 12, 20, 26, 47),
  listSize: fc.constantFrom(1, 3, 50),
  times: fc.constantFrom('alike', 'near', 'far', 'outliers'),
  steps: fc.constantFrom('one', 'some', 'all'),
  leftOut: fc.constantFrom('none', 'none', 'some', 'all'),
  events: fc.constantFrom('none asked', 'all none', 'only events', 'mixed', 'untied'),
  facts: fc.constantFrom('unknown', 'some', 'all'),
  days: fc.constantFrom('undated', 'gaps', 'future', 'one day'),
  codes: fc.constantFrom('own', 'own', 'the same'),
  procedures: fc.constantFrom(1, 1, 3),
  hands: fc.constantFrom('mine', 'mine', 'shared', 'others'),
  byHand: fc.boolean(),
  untimed: fc.boolean(),
  operated: fc.constantFrom(null, 1, 4),
  goal: fc.boolean(),
});

const EVENTS: Record<Shape['events'], (at: number) => Case['events']> = {
  'none asked': () => null,
  'all none': () => [],
  'only events': (at) => (at % 4 === 0 ? [tear] : null),
  mixed: (at) => (at % 5 === 0 ? null : at % 7 === 0 ? [tear, { ...tear, stepId: 'fifth', serious: false }] : []),
  untied: (at) => (at % 6 === 0 ? [{ ...tear, stepId: null, serious: false }] : []),
};

function recordOf(shape: Shape): SurgeonRecord {
  const seconds = (at: number, step: number): number => {
    if (shape.times === 'alike') return 30;
    if (shape.times === 'outliers' && at % 9 === 4) return 7000;
    return shape.times === 'near' ? 30 + ((at * 7 + step) % 3) : 10 + ((at * 37 + step * 11) % 90);
  };
  const procedures = shape.procedures === 1 ? [operation] : [operation, other, third];
  const cases = Array.from({ length: shape.cases }, (_, at): Case => {
    const steps = operation.steps.filter((__, step) =>
      shape.steps === 'one' ? step === 1 : shape.steps === 'some' ? (at + step) % 3 > 0 : true,
    );
    return {
      ...plainCase(),
      id: `case-${at + 1}`,
      code: shape.codes === 'own' ? `K${at + 1}` : 'K1',
      procedureId: procedures[at % procedures.length]!.id,
      sequence: at + 1,
      listId: shape.days === 'undated' ? null : `list-${Math.floor(at / shape.listSize) + 1}`,
      stretches: shape.untimed && at % 3 === 1 ? [] : steps.map(({ id }, step) => length(id, seconds(at, step))),
      facts: shape.facts === 'unknown' || (shape.facts === 'some' && at % 2 === 0) ? {} : { dense: at % 3 === 0 },
      events: EVENTS[shape.events](at),
      hands: {
        whole: shape.hands === 'others' ? 'someone-else' : 'mine',
        steps: shape.hands === 'shared' && at % 2 === 0 ? { practised: 'taken-over' } : {},
      },
      leftOut:
        shape.leftOut === 'all' || (shape.leftOut === 'some' && at % 4 === 2)
          ? { reason: 'timing-unreliable', timesSeen: at % 2 === 0, at: '2026-02-01T10:00:00.000Z' }
          : null,
      source: shape.byHand ? { kind: 'by-hand' } : { kind: 'typed' },
    };
  });
  const lists = [...new Set(cases.flatMap(({ listId }) => listId ?? []))].map((id, at): ListRecord => {
    const year = shape.days === 'future' ? 2090 : 2026;
    const day = new Date(Date.UTC(year, 0, shape.days === 'one day' ? 1 : 1 + at * (shape.days === 'gaps' ? 40 : 1)));
    return {
      ...plainList(),
      id,
      label: null,
      when: { kind: 'date', date: day.toISOString().slice(0, 10) },
      operated: shape.operated,
    };
  });
  const start = Math.floor(shape.cases / 2);
  return aRecord({
    profile: { ...aRecord().profile, procedureId: operation.id },
    procedures,
    cases,
    lists,
    goals:
      shape.goal && start > 0
        ? [goalAfter(start, { checkpoints: [{ id: 'fold', look: 'The flap lies folded over.' }], watch: ['pause'] })]
        : [],
  });
}

const ROOMS = [
  'now',
  'choose',
  'step',
  'cases',
  'reflect',
  'plan',
  'note',
  'after',
  'report',
  'overTime',
  'files',
] as const;
/** A broken number, a count below nothing, a share of nothing, a count above what it is a part of. */
const broken = (text: string): string[] => [
  ...(text.match(/NaN|Infinity|undefined|\bnull\b|\[object|(?<![\w–-])-\d|\b0 of 0\b/g) ?? []),
  ...[...text.matchAll(/\b(\d+) (?:timed |here )?of (?:these |the |your )?(\d+)/g)].flatMap(([all, part, whole]) =>
    Number(part) > Number(whole) ? [all] : [],
  ),
];

describe('two hundred records of odd shapes', () => {
  it('give every room and the command line numbers that are numbers, and counts that agree', () => {
    let assessed = 0;
    fc.assert(
      fc.property(shapes, (shape) => {
        const record = recordOf(shape);
        // Odd, but such as the store takes.
        expect(record.cases.map((one) => caseSchema.parse(one))).toEqual(record.cases);
        expect(record.lists.map((list) => listRecordSchema.parse(list))).toEqual(record.lists);
        const moment = { name: 'odd', record, day: '2026-03-01' };
        const said = new Map(ROOMS.map((name) => [name, rooms[name](moment)] as const));
        for (const [name, all] of said)
          expect([name, all.filter((text) => broken(text).length > 0)]).toEqual([name, []]);
        // The counts that every record has, counted again.
        const { cases } = record;
        const lists = new Set(cases.flatMap(({ listId }) => listId ?? [])).size;
        const unanswered = cases.filter(({ events }) => events === null).length;
        const left = cases.filter(({ leftOut }) => leftOut !== null).length;
        const many = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`;
        expect(said.get('cases')).toContain(
          `${many(cases.length, 'case')}${lists === 0 ? ', lists not known' : ` in ${many(lists, 'list')}`}.`,
        );
        expect(said.get('cases')).toContain(
          [
            unanswered === 0
              ? 'Events are answered in all of them.'
              : unanswered === cases.length
                ? 'Events were not answered in any of them.'
                : `Events are not answered in ${unanswered}.`,
            ...(left > 0 ? [`${left} left out.`] : []),
          ].join(' '),
        );
        const { sequence: after = 0 } = cases.find(({ id }) => id === record.goals[0]?.baseline.caseIds.at(-1)) ?? {};
        const waits = Number(/^(\d+) /.exec(said.get('reflect')!.find((text) => /wait for review/.test(text))!)![1]);
        expect(waits).toBeLessThanOrEqual(cases.filter(({ sequence }) => sequence > after).length);

        const answer = assess({
          reading: readingOf(record),
          procedures: record.procedures,
          guidance: [],
          resamples: 20,
        });
        if (answer.kind === 'cannot') return void expect(answer.because).not.toBe('');
        assessed += 1;
        const own = cases.filter(({ procedureId }) => procedureId === operation.id);
        expect(answer.assessment.cases).toBe(own.length);
        expect(
          assessmentText(answer)
            .split('\n')
            .filter((line) => broken(line).length > 0),
        ).toEqual([]);
        for (const { step, n, median_s: middle } of answer.assessment.steps) {
          const timed = own.filter(
            ({ hands, stretches }) =>
              (hands.steps[step] ?? hands.whole) === 'mine' && stretches.some(({ stepId }) => stepId === step),
          );
          expect(n).toBe(timed.length);
          expect(middle === null).toBe(n === 0);
        }
      }),
      { numRuns: 200, seed: 26 },
    );
    expect(assessed).toBeGreaterThan(100);
  }, 240_000);
});
