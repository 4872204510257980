import type { Case, ListRecord, ReferenceCase } from '../src/lib/model';
import { randomStream } from '../src/lib/statistics';
import { chance, dayAfter, inventedEvent, inventedList, invented, operate, pick, type InventedStep } from './invent';

/**
 * The fellow: a coastal eye unit, nine months, lists of four to seven, some cases taken over, two events.
 *
 * THE TRUTH, planted here and nowhere else:
 * - capsulorhexis: from the first list after 80 cases on, 22 % shorter than before (factor 0.78), and it stays so;
 * - cortex aspiration: nothing changes, before or after its goal, which starts with the first list after 155 cases
 *   and has 13 of its twenty;
 * - every step falls by 3 % over the nine months (experience);
 * - a dense nucleus makes nucleus removal longer (factor 1.35 hard, 1.7 very hard), and nothing else does.
 */
export const FELLOW_TRUTH = {
  step: 'capsulorhexis',
  shift: 0.78,
  afterCases: 80,
  secondStep: 'cortex-aspiration',
  secondAfterCases: 155,
  secondCounted: 13,
};

const STEPS: readonly InventedStep[] = [
  { id: 'side-port', usual: 12, logSd: 0.24 },
  { id: 'ovd-fill', usual: 19, logSd: 0.22 },
  { id: 'main-incision', usual: 23, logSd: 0.22 },
  {
    id: 'capsulorhexis',
    usual: 92,
    logSd: 0.24,
    goesBack: 0.06,
    facts: { nucleus: { white: 1.25 }, pupil: { small: 1.12 } },
  },
  {
    id: 'hydrodissection',
    usual: 35,
    logSd: 0.25,
    goesBack: 0.05,
    protectedParts: [{ id: 'rotation-test', seconds: 5 }],
  },
  {
    id: 'nucleus-removal',
    usual: 205,
    logSd: 0.22,
    facts: { nucleus: { soft: 0.8, hard: 1.35, 'very-hard': 1.7 }, pupil: { small: 1.08 } },
    waiting: { reason: 'machine', chance: 0.12, seconds: 22 },
  },
  { id: 'cortex-aspiration', usual: 78, logSd: 0.26, goesBack: 0.08, facts: { pupil: { small: 1.15 } } },
  { id: 'capsule-polish', usual: 22, logSd: 0.3, done: 0.4 },
  { id: 'bag-refill', usual: 14, logSd: 0.22, done: 0.95 },
  {
    id: 'iol-insertion',
    usual: 47,
    logSd: 0.2,
    waiting: { reason: 'lens-loading', chance: 0.7, seconds: 26 },
    protectedParts: [{ id: 'lens-identity', seconds: 6 }],
  },
  { id: 'ovd-removal', usual: 42, logSd: 0.24 },
  { id: 'wound-check', usual: 50, logSd: 0.24 },
];

/** More experienced surgeons of the same unit, who agreed: usual seconds of the steps above. */
const READERS: Record<string, number> = {
  'side-port': 10,
  'ovd-fill': 16,
  'main-incision': 19,
  capsulorhexis: 38,
  hydrodissection: 29,
  'nucleus-removal': 150,
  'cortex-aspiration': 58,
  'bag-refill': 13,
  'iol-insertion': 40,
  'ovd-removal': 34,
  'wound-check': 48,
};

export type FellowRecord = {
  cases: Case[];
  lists: ListRecord[];
  reference: ReferenceCase[];
  /** Sequence numbers of the first case of each goal's window. */
  firstWindowAt: number;
  secondWindowAt: number;
};

/** About 170 cases, their lists, and a reference set of 24 cases of three readers. */
export function inventFellow(seed: number): FellowRecord {
  const cases: Case[] = [];
  const lists: ListRecord[] = [];
  let day = '2026-02-10';
  let [firstWindowAt, secondWindowAt] = [Infinity, Infinity];
  const wanted = () => (secondWindowAt === Infinity ? Infinity : secondWindowAt - 1 + FELLOW_TRUTH.secondCounted);
  while (cases.length < wanted()) {
    const stream = randomStream(seed, lists.length);
    const listId = lists.length + 1;
    if (firstWindowAt === Infinity && cases.length >= FELLOW_TRUTH.afterCases) firstWindowAt = cases.length + 1;
    if (secondWindowAt === Infinity && cases.length >= FELLOW_TRUTH.secondAfterCases) secondWindowAt = cases.length + 1;
    // The last lists are small, so that thirteen cases lie over three of them.
    const size =
      secondWindowAt < Infinity
        ? Math.min(5, wanted() - cases.length)
        : pick(stream, [
            [4, 2],
            [5, 3],
            [6, 3],
            [7, 1],
          ] as const);
    const ofTheDay = Math.exp(0.06 * stream.normal());
    const ofTheStepThatDay = new Map(STEPS.map((step) => [step.id, Math.exp(0.04 * stream.normal())]));
    for (let position = 1; position <= size; position++) {
      const number = cases.length + 1;
      const ofThisCase = Math.exp(0.1 * stream.normal());
      const experience = 1 - 0.03 * (number / 170);
      const facts: Case['facts'] = {
        nucleus: pick(stream, [
          ['soft', 2],
          ['medium', 6],
          ['hard', 3],
          ['very-hard', 1],
          ['white', 0.6],
        ] as const),
        pupil: pick(stream, [
          ['large', 6],
          ['medium', 4],
          ['small', 1.4],
        ] as const),
        still: chance(stream, 0.9),
      };
      if (chance(stream, 0.06)) delete facts.pupil;
      const planted = (stepId: string) =>
        stepId === FELLOW_TRUTH.step && number >= firstWindowAt ? FELLOW_TRUTH.shift : 1;
      const stretches = operate(
        STEPS,
        facts,
        (stepId) => ofTheDay * (ofTheStepThatDay.get(stepId) ?? 1) * ofThisCase * experience * planted(stepId),
        stream,
      );
      const takenOver = chance(stream, 0.06)
        ? pick(stream, [
            ['nucleus-removal', 3],
            ['hydrodissection', 1],
            ['iol-insertion', 1],
          ] as const)
        : null;
      cases.push(
        invented(number, {
          code: `F${String(number).padStart(3, '0')}`,
          procedureId: 'phaco',
          listId: `list-${listId}`,
          position,
          sequence: number,
          facts,
          stretches,
          hands: { whole: 'mine', steps: takenOver ? { [takenOver]: 'taken-over' } : {} },
          events: eventsOf(number, day),
          protectedSeen: { 'lens-identity': true, 'rotation-test': chance(stream, 0.96) },
        }),
      );
    }
    lists.push(
      inventedList(listId, {
        when: { kind: 'date', date: day },
        operated:
          size +
          pick(stream, [
            [0, 2],
            [1, 2],
            [2, 1],
          ] as const),
        anaesthesia: 'topical',
        machine: 'A',
        teaching: false,
        eventsAnsweredForAll: listId % 9 !== 0,
        nextDayKnown: listId % 5 === 0 ? null : size,
      }),
    );
    day = dayAfter(
      day,
      pick(stream, [
        [7, 6],
        [14, 1],
      ] as const),
    );
  }
  return { cases, lists, reference: inventReaders(seed), firstWindowAt, secondWindowAt };
}

/** One near miss early, one serious event reviewed at once, and a few cases in which nobody asked. */
function eventsOf(number: number, day: string): Case['events'] {
  if (number % 23 === 0) return null;
  if (number === 31) return [inventedEvent({ kind: 'anterior-capsule-tear', stepId: 'capsulorhexis', nearMiss: true })];
  if (number === 64)
    return [
      inventedEvent({
        kind: 'posterior-capsule-tear',
        stepId: 'cortex-aspiration',
        serious: true,
        reviewed: {
          at: `${dayAfter(day, 2)}T17:00:00.000Z`,
          text: 'Looked at with a senior colleague. The port was not in view when the hold came; next time I stop and find it first.',
        },
      }),
    ];
  return [];
}

function inventReaders(seed: number): ReferenceCase[] {
  return Array.from({ length: 24 }, (_, index) => {
    const stream = randomStream(seed, 9000, index);
    const ofThisCase = Math.exp(0.08 * stream.normal());
    const nucleus = pick(stream, [
      ['soft', 1],
      ['medium', 3],
      ['hard', 1],
    ] as const);
    const pupil = pick(stream, [
      ['large', 3],
      ['medium', 2],
    ] as const);
    return {
      reader: `R${1 + (index % 3)}`,
      list: Math.floor(index / 4),
      facts: { nucleus, pupil },
      stepSeconds: Object.fromEntries(
        Object.entries(READERS).map(([stepId, usual]) => {
          const ofThisEye = stepId === 'nucleus-removal' ? ({ soft: 0.8, medium: 1, hard: 1.35 }[nucleus] ?? 1) : 1;
          return [stepId, Math.round(usual * ofThisEye * ofThisCase * Math.exp(0.18 * stream.normal()) * 10) / 10];
        }),
      ),
    };
  });
}
