import {
  type SurgeonRecord,
  emptyProfile,
  type Case,
  type Goal,
  type ListRecord,
  type Procedure,
} from '../../src/lib/model';
import { plainCase, plainList, plainStep } from './plain';

/** A small procedure of four steps, so that a test can be read without the shipped ones. */
export const smallProcedure: Procedure = {
  id: 'small',
  name: 'Small operation',
  synonyms: [],
  steps: [
    step('side-port', 'Side port'),
    { ...step('capsulorhexis', 'Capsulorhexis'), protectedParts: [{ id: 'refill', label: 'Chamber refilled' }] },
    step('cortex', 'Cortex aspiration'),
    { ...step('wound-check', 'Wound check'), notToShorten: true },
  ],
  facts: [
    {
      id: 'nucleus',
      label: 'Nucleus',
      kind: 'choice',
      levels: [
        { id: 'soft', label: 'soft', key: '1', synonyms: [] },
        { id: 'hard', label: 'hard', key: '2', synonyms: [] },
      ],
      synonyms: [],
      asked: 'row',
    },
    { id: 'still', label: 'Still', kind: 'yes-no', synonyms: [], asked: 'row' },
    { id: 'floppy-iris', label: 'Floppy iris', kind: 'yes-no', key: 'F', synonyms: [], asked: 'more' },
    { id: 'toric', label: 'Toric lens', kind: 'yes-no', key: 'T', synonyms: [], asked: 'more' },
    { id: 'axial-length', label: 'Axial length', kind: 'number', unit: 'mm', synonyms: [], asked: 'file' },
  ],
  waitingReasons: [{ id: 'lens-loading', label: 'lens loading' }],
  eventKinds: [{ id: 'tear', label: 'posterior capsule tear' }],
  origin: 'shipped',
};

function step(id: string, label: string): Procedure['steps'][number] {
  return {
    id,
    label,
    ...plainStep(),
  };
}

/** A case of the small procedure with 30 s a step, all mine, no event, at its plainest. */
export function aCase(n: number, over: Partial<Case> = {}): Case {
  return {
    id: `case-${n}`,
    code: `A${n}`,
    procedureId: 'small',
    sequence: n,
    ...plainCase(),
    stretches: smallProcedure.steps.map(({ id }) => ({
      stepId: id,
      start: null,
      end: null,
      seconds: 30,
      kind: 'step',
      reason: null,
    })),
    events: [],
    ...over,
  };
}

export function aList(n: number, over: Partial<ListRecord> = {}): ListRecord {
  return {
    id: `list-${n}`,
    label: null,
    when: { kind: 'number', number: n },
    ...plainList(),
    ...over,
  };
}

/** A goal on capsulorhexis, running after the case numbered `after`. */
export function aGoal(after: number, over: Partial<Goal> = {}): Goal {
  return {
    id: 'goal-1',
    procedureId: 'small',
    stepId: 'capsulorhexis',
    measure: 'time',
    checkpoints: [{ id: 'regrasp', look: 'The flap is taken again near the tearing edge.' }],
    ifThen: null,
    watch: [],
    stopSigns: [],
    reminders: [],
    baseline: {
      caseIds: Array.from({ length: after }, (_, index) => `case-${index + 1}`),
      frozen: null,
      selectionAllowance: 0,
      selectionAllowanceSpread: 0,
      steer: null,
      seed: 1,
      engine: 'test',
      hash: 'test',
    },
    windowLength: 20,
    agreed: { answer: 'yes', why: null },
    chosenBy: 'own',
    reason: null,
    setAt: '2026-05-01T10:00:00.000Z',
    afterSequence: after,
    listAtStart: null,
    state: 'running',
    decisions: [],
    timesShown: [],
    invented: false,
    ...over,
  };
}

export function aRecord(over: Partial<SurgeonRecord> = {}): SurgeonRecord {
  return {
    profile: { ...emptyProfile, procedureId: 'small' },
    procedures: [smallProcedure],
    lists: [],
    cases: [],
    goals: [],
    results: [],
    reflections: [],
    references: [],
    ...over,
  };
}

/** `count` cases over lists of `size`, numbered from 1, with their lists. */
export function casesInLists(count: number, size: number): Pick<SurgeonRecord, 'cases' | 'lists'> {
  const lists = Array.from({ length: Math.ceil(count / size) }, (_, index) => aList(index + 1));
  const cases = Array.from({ length: count }, (_, index) =>
    aCase(index + 1, { listId: `list-${Math.floor(index / size) + 1}`, position: (index % size) + 1 }),
  );
  return { cases, lists };
}
