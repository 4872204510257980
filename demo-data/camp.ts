import type { Case, ListRecord } from '../src/lib/model';
import { randomStream } from '../src/lib/statistics';
import { chance, inventedEvent, inventedList, invented, operate, pick, type InventedStep } from './invent';

/**
 * The camp: small-incision surgery, three days, 110 operated, 18 timed, one phone.
 * THE TRUTH: too little to choose from, and the record says so; one untimed case had an event.
 */
const STEPS: readonly InventedStep[] = [
  { id: 'bridle-suture', usual: 14, logSd: 0.25, done: 0.9 },
  { id: 'peritomy', usual: 26, logSd: 0.22 },
  { id: 'cautery', usual: 12, logSd: 0.3 },
  { id: 'scleral-tunnel', usual: 62, logSd: 0.24 },
  { id: 'side-port-ovd', usual: 18, logSd: 0.2 },
  { id: 'chamber-entry', usual: 15, logSd: 0.22 },
  { id: 'capsulotomy', usual: 34, logSd: 0.26 },
  { id: 'hydrodissection', usual: 14, logSd: 0.25 },
  { id: 'nucleus-prolapse', usual: 22, logSd: 0.35, facts: { nucleus: { 'very-hard': 1.4 } } },
  { id: 'nucleus-delivery', usual: 20, logSd: 0.28, facts: { nucleus: { 'very-hard': 1.3 } } },
  { id: 'cortex-aspiration', usual: 48, logSd: 0.25 },
  { id: 'iol-insertion', usual: 24, logSd: 0.22, waiting: { reason: 'hand-over', chance: 0.4, seconds: 14 } },
  { id: 'ovd-removal', usual: 22, logSd: 0.22 },
  { id: 'wound-check', usual: 28, logSd: 0.2 },
  { id: 'conjunctiva', usual: 16, logSd: 0.25 },
];

const OPERATED = [38, 40, 32] as const;

export function inventCamp(seed: number): { cases: Case[]; lists: ListRecord[] } {
  const cases: Case[] = [];
  const lists = OPERATED.map((operated, day) =>
    inventedList(day + 1, {
      label: `Day ${day + 1}`,
      when: { kind: 'date', date: `2026-10-${String(13 + day).padStart(2, '0')}` },
      operated,
      anaesthesia: 'sub-tenon',
      teaching: false,
      eventsAnsweredForAll: day < 2,
      nextDayKnown: day < 2 ? operated : null,
      untimedEvents:
        day === 1 ? [inventedEvent({ kind: 'iris-prolapse', stepId: 'chamber-entry', noticed: 'during' })] : [],
    }),
  );
  for (let index = 0; index < 18; index++) {
    const stream = randomStream(seed, index);
    const day = Math.floor(index / 6);
    const facts = {
      nucleus: pick(stream, [
        ['medium', 2],
        ['hard', 3],
        ['very-hard', 2],
        ['white', 2],
      ] as const),
      pupil: pick(stream, [
        ['large', 3],
        ['medium', 3],
        ['small', 1],
      ] as const),
      still: chance(stream, 0.95),
    };
    const ofThisCase = Math.exp(0.1 * stream.normal());
    cases.push(
      invented(index + 1, {
        code: `K${String(index + 1).padStart(2, '0')}`,
        procedureId: 'sics',
        listId: `list-${day + 1}`,
        position: 4 + 5 * (index % 6),
        sequence: index + 1,
        facts,
        stretches: operate(STEPS, facts, () => ofThisCase, stream),
        events: [],
      }),
    );
  }
  return { cases, lists };
}
