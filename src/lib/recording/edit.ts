/** Whose hands a step was done by, as the case keeps it. */
export const HANDS = ['mine', 'someone-else', 'taken-over', 'shared'] as const;
export type MarkedHands = (typeof HANDS)[number];

export const ANSWERS = ['done', 'partly', 'not', 'did-not-arise'] as const;
export type MarkedAnswer = (typeof ANSWERS)[number];

export type RowKind = 'step' | 'waiting' | 'protected';

/** An event seen while timing; when it was noticed is known: during the operation, as it is in the recording. */
export type MarkedEvent = { kind: string; stepId: string | null; serious: boolean; nearMiss: boolean };

/**
 * One thing the surgeon did while timing. `at`, `from` and `to` are seconds of the recording. `row` counts the rows in the
 * order in which they were begun, from 0; a row that was removed keeps its number.
 */
export type Edit =
  | { do: 'open'; kind: RowKind; stepId: string | null; reason: string | null; at: number }
  | { do: 'close'; row: number; at: number }
  | { do: 'typed'; kind: RowKind; stepId: string | null; reason: string | null; from: number; to: number }
  | { do: 'move'; row: number; edge: 'from' | 'to'; at: number }
  | { do: 'reason'; row: number; reason: string | null }
  | { do: 'remove'; row: number }
  | { do: 'seen'; partId: string; seen: boolean | null }
  | { do: 'event'; event: MarkedEvent }
  | { do: 'no-event'; event: number }
  | { do: 'hands'; stepId: string; hands: MarkedHands }
  | { do: 'answer'; checkpointId: string; answer: MarkedAnswer | null };
