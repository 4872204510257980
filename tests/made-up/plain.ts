import type { Case, Event, ListRecord, Outcome, Reflection, Step } from '../../src/lib/model';

/** Made-up records at their plainest, for the makers of each kind of test: what no test is about stands here once. */

export const plainCase = (): Omit<Case, 'id' | 'code' | 'procedureId' | 'sequence' | 'stretches'> => ({
  listId: null,
  position: null,
  orderKnown: true,
  facts: {},
  factChanges: [],
  hands: { whole: 'mine', steps: {} },
  returnsNoted: {},
  events: null,
  protectedSeen: {},
  energy: null,
  recording: null,
  source: { kind: 'typed' },
  leftOut: null,
  keptAsItIs: null,
  invented: false,
  version: 1,
  history: [],
});

export const plainList = (): Omit<ListRecord, 'id' | 'label' | 'when'> => ({
  operated: null,
  anaesthesia: null,
  machine: null,
  teaching: null,
  eventsAnsweredForAll: null,
  untimedEvents: [],
  nextDayKnown: null,
});

export const plainStep = (): Omit<Step, 'id' | 'label'> => ({
  starts: 'it is seen to start',
  ends: 'it is seen to end',
  synonyms: [],
  earlier: [],
  optional: false,
  notToShorten: false,
  protectedParts: [],
  retired: false,
});

/** A note on a goal, before the times were shown, with nothing in it. */
export const plainReflection = (): Omit<Reflection, 'id' | 'at' | 'caseIds' | 'goalId' | 'stepId'> => ({
  answers: [],
  beforeLengths: true,
  protectedSeen: [],
  saw: '',
  willTry: '',
  tags: [],
  history: [],
  invented: false,
  version: 1,
});

/** A serious event seen during the operation, which waits for its review. */
export const aTear = (stepId: string | null, over: Partial<Event> = {}): Event => ({
  kind: 'tear',
  stepId,
  serious: true,
  nearMiss: false,
  noticed: 'during',
  reviewed: null,
  ...over,
});

/** A result about time that says nothing. */
export const plainOutcome = (): Outcome => ({
  kind: 'cannot-tell',
  measure: 'time',
  against: null,
  plain: null,
  rest: null,
  spread: null,
  paused: [],
  selectionAllowance: 0,
  steer: null,
  baselineMedian: null,
  rangeBaseline: null,
  rangeWindow: null,
  notes: [],
  priorTrend: null,
  leftOutSeen: 0,
  kindWithLeftOut: null,
  powerForAFifth: null,
  cannot: null,
  caveats: [],
});
