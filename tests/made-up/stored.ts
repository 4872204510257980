import {
  emptyProfile,
  profileSchema,
  type Case,
  type Goal,
  type Lasting,
  type NewCase,
  type Reflection,
  type StoredResult,
} from '../../src/lib/model';
import type { Everything, ImportBatch, NewList } from '../../src/lib/server/storage';
import { plainCase, plainList, plainOutcome } from './plain';

/** Made-up records for the storage tests: valid, small, and the same every time. */

export const now = '2026-11-25T10:00:00.000Z';
export const later = '2026-11-25T18:00:00.000Z';

export const aCase = (code: string, over: Partial<Case> = {}): Omit<Case, 'id' | 'version' | 'history'> => {
  const { version: _version, history: _history, ...plain } = plainCase();
  return {
    ...plain,
    code,
    procedureId: 'phaco',
    sequence: 1,
    stretches: [{ stepId: 'capsulorhexis', start: 60, end: 143, seconds: 83, kind: 'step', reason: null }],
    ...over,
  };
};

export const aNewCase = (code: string, row: number, over: Partial<NewCase> = {}): NewCase => ({
  code,
  procedureId: 'phaco',
  list: null,
  position: null,
  sequence: row,
  orderKnown: true,
  facts: {},
  hands: { whole: 'mine', steps: {} },
  stretches: [{ stepId: 'capsulorhexis', start: null, end: null, seconds: 83, kind: 'step', reason: null }],
  returnsNoted: {},
  events: null,
  protectedSeen: {},
  energy: null,
  recording: null,
  row,
  ...over,
});

export const aList = (date: string) => ({
  label: null,
  when: { kind: 'date' as const, date },
  ...plainList(),
});

export const aNewList = (key: string, date: string): NewList => ({ ...aList(date), key });

export const aBatch = (over: Partial<ImportBatch> = {}): ImportBatch => ({
  lists: [],
  cases: [],
  replace: [],
  references: [],
  ...over,
});

export const aReference = {
  label: 'Two colleagues, with their agreement',
  procedureId: 'phaco',
  agreedAt: now,
  cases: [{ reader: 'R1', list: 1, facts: {}, stepSeconds: { capsulorhexis: 40 } }],
  invented: false,
};

export const aGoal = (caseIds: string[], over: Partial<Goal> = {}): Omit<Goal, 'id'> => ({
  procedureId: 'phaco',
  stepId: 'capsulorhexis',
  measure: 'time',
  checkpoints: [{ id: 'regrasp', look: 'The edge is held again near its end' }],
  ifThen: null,
  watch: [],
  stopSigns: ['the edge runs out'],
  reminders: [],
  baseline: {
    caseIds,
    frozen: null,
    selectionAllowance: 0,
    selectionAllowanceSpread: 0,
    steer: null,
    seed: 1,
    engine: '0.1.0',
    hash: 'x',
  },
  windowLength: 20,
  agreed: { answer: 'none', why: 'working alone' },
  chosenBy: 'seconds',
  reason: null,
  setAt: now,
  afterSequence: 0,
  listAtStart: null,
  state: 'running',
  decisions: [],
  timesShown: [],
  invented: false,
  ...over,
});

export const aResult = (
  goalId: string,
  ids: string[],
  look: 'first' | 'second' = 'first',
): Omit<StoredResult, 'id'> => ({
  goalId,
  look,
  storedAt: now,
  inputHash: 'x',
  baselineIds: ids,
  windowIds: [],
  stepId: 'capsulorhexis',
  seed: 1,
  engine: '0.1.0',
  outcome: { ...plainOutcome(), cannot: { code: 'too-few' } },
});

export const aLasting = (nth: number, kind: Lasting['kind']): Lasting => ({
  nth,
  kind,
  effect: {
    estimate: -0.16,
    low: -0.26,
    high: -0.06,
    rawEstimate: -0.18,
    rawLow: -0.28,
    rawHigh: -0.08,
    se: 0.05,
    df: 60,
    nBaseline: 40,
    nWindow: 20,
    method: 'made up for a test',
  },
  firstEstimate: -0.2,
  together: null,
});

export const aReflection = (caseIds: string[], over: Partial<Reflection> = {}): Omit<Reflection, 'id' | 'version'> => ({
  at: now,
  caseIds,
  goalId: null,
  stepId: 'capsulorhexis',
  answers: caseIds.map((caseId) => ({ caseId, checkpointId: 'regrasp', answer: 'done' as const })),
  beforeLengths: true,
  protectedSeen: caseIds.map((caseId) => ({ caseId, protectedPartId: 'refill', seen: true })),
  saw: 'The edge stayed inside.',
  willTry: '',
  tags: [],
  history: [],
  invented: false,
  ...over,
});

export const aWholeRecord = (): Everything => ({
  format: 'next-twenty/everything/1',
  profile: profileSchema.parse({ ...emptyProfile, inTraining: true }),
  procedures: [],
  lists: [{ ...aList('2026-03-02'), id: 'list-1' }],
  cases: [
    { ...aCase('F1', { listId: 'list-1', position: 1 }), id: 'case-1', version: 1, history: [] },
    { ...aCase('F2', { listId: 'list-1', position: 2, sequence: 2 }), id: 'case-2', version: 1, history: [] },
  ],
  goals: [{ ...aGoal(['case-1', 'case-2']), id: 'goal-1' }],
  results: [{ ...aResult('goal-1', ['case-1', 'case-2']), id: 'result-1' }],
  reflections: [{ ...aReflection(['case-2'], { goalId: 'goal-1' }), id: 'reflection-1', version: 1 }],
  references: [{ ...aReference, id: 'reference-1' }],
});
