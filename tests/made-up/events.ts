import type { Case, Event, Procedure } from '../../src/lib/model';
import { case_, listRecord, procedure, step } from './cases';
import { aTear } from './plain';

export const tear: Event = aTear('cortex');
export const minor: Event = { ...tear, kind: 'iris', serious: false };
export const nearMiss: Event = { ...minor, nearMiss: true };
export const reviewed = (event: Event): Event => ({
  ...event,
  reviewed: { at: '2026-06-03T10:00:00Z', text: 'Seen with a senior colleague.' },
});

/** Cortex comes before the lens; both before the wound check, which nothing makes longer. */
export const operation: Procedure = {
  ...procedure([
    step('rhexis', { protectedParts: [{ id: 'refill', label: 'Chamber refilled' }] }),
    step('cortex', { earlier: ['rhexis'], protectedParts: [{ id: 'pause', label: 'Lens identity pause' }] }),
    step('lens', { earlier: ['cortex'] }),
    step('wound'),
  ]),
  eventKinds: [{ id: 'tear', label: 'posterior capsule tear' }],
};

/** One case for each answer: `null` not answered, `[]` none. Lists of five. */
export const answered = (...answers: (readonly Event[] | null)[]): Case[] =>
  answers.map((events, at) =>
    case_(at + 1, [], { events: events === null ? null : [...events], listId: `list-${Math.floor(at / 5) + 1}` }),
  );
export const none = (count: number): Case[] => answered(...Array.from({ length: count }, () => []));
export const list = listRecord;
