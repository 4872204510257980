import type { Case, Goal, ListRecord, Procedure } from '../../src/lib/model';
import { randomStream } from '../../src/lib/statistics';
import { case_, fact, length, listRecord, procedure, step } from './cases';

/** Seven steps; the second is practised, the third and fourth come after it. */
export const operation: Procedure = {
  ...procedure(
    [
      step('first'),
      step('practised', { protectedParts: [{ id: 'pause', label: 'Identity pause' }] }),
      step('third', { earlier: ['practised'] }),
      step('fourth', { earlier: ['third', 'practised'] }),
      step('fifth'),
      step('sixth'),
      step('seventh', { notToShorten: true }),
    ],
    [fact('dense', 'yes-no')],
  ),
  eventKinds: [{ id: 'tear', label: 'posterior capsule tear' }],
};

export type Month = {
  /** Change of the practised step and of all others from case `from` on, log scale. */
  change?: number;
  rest?: number;
  from?: number;
  sd?: number;
  listSize?: number;
  seed?: number;
  lists?: boolean;
};

/** A record of so many cases in lists of five, with known truth. */
export function month(
  cases: number,
  { change = 0, rest = 0, from = 40, sd = 0.15, listSize = 5, seed = 4, lists = true }: Month = {},
): Case[] {
  const stream = randomStream(seed, 9);
  return Array.from({ length: cases }, (_, at) => {
    const dense = stream.uniform() < 0.3;
    const stretches = operation.steps.map(({ id }, index) => {
      const later = at >= from ? (index === 1 ? change : rest) : 0;
      return length(id, Math.exp(Math.log(30 + 10 * index) + (dense ? 0.25 : 0) + sd * stream.normal() + later));
    });
    return case_(at + 1, stretches, {
      listId: lists ? `list-${Math.floor(at / listSize) + 1}` : null,
      facts: { dense },
      events: [],
    });
  });
}

export const listsFor = (cases: readonly Case[]): ListRecord[] =>
  [...new Set(cases.flatMap((one) => one.listId ?? []))].map((id) => listRecord(Number(id.split('-')[1])));

export const goalAfter = (sequence: number, over: Partial<Goal> = {}): Goal => ({
  id: 'goal-1',
  procedureId: operation.id,
  stepId: 'practised',
  measure: 'time',
  checkpoints: [],
  ifThen: null,
  watch: [],
  stopSigns: [],
  reminders: [],
  baseline: {
    caseIds: Array.from({ length: sequence }, (_, at) => `case-${at + 1}`),
    frozen: null,
    selectionAllowance: 0,
    selectionAllowanceSpread: 0,
    steer: null,
    seed: 1,
    engine: 'test',
    hash: '',
  },
  windowLength: 20,
  agreed: { answer: 'none', why: null },
  chosenBy: 'own',
  reason: null,
  setAt: '2026-06-01T10:00:00Z',
  afterSequence: sequence,
  listAtStart: null,
  state: 'running',
  decisions: [],
  timesShown: [],
  invented: false,
  ...over,
});
