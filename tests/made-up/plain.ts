import type { Case, ListRecord, Step } from '../../src/lib/model';

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
