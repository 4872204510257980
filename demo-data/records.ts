import {
  type Case,
  type Goal,
  type ListRecord,
  type ReferenceSet,
  type Reflection,
  type StoredResult,
  emptyProfile,
} from '../src/lib/model';
import { hashOfCases, resultFor, startGoal, windowOf } from '../src/lib/practice';
import { goalReading, lastingOf } from '../src/lib/rooms/goals/goal-reading';
import type { Everything } from '../src/lib/server/storage/port';
import { loadGuidance, loadProcedures } from '../src/lib/server/content/library';
import { randomStream } from '../src/lib/statistics';
import { inventCamp } from './camp';
import { inventConsultant } from './consultant';
import { FELLOW_TRUTH, inventFellow, type FellowRecord } from './fellow';
import { FELLOW_NOTES } from './fellow-notes';
import { dayAfter, pick } from './invent';

const SEED = 20260210;
/** One of the seeds at which the estimate comes out near the planted truth; at others it strays as far as its interval says. */
const FELLOW_SEED = 4;
const ENGINE = 'invented/1';

const blank = (procedureId: string): Everything => ({
  format: 'next-twenty/everything/1',
  profile: { ...emptyProfile, procedureId },
  procedures: [],
  lists: [],
  cases: [],
  goals: [],
  results: [],
  reflections: [],
  references: [],
});

export const everythingOfConsultant = (): Everything => ({ ...blank('phaco'), cases: inventConsultant(SEED + 1) });

export function everythingOfCamp(): Everything {
  const { cases, lists } = inventCamp(SEED + 2);
  return { ...blank('sics'), cases, lists };
}

/** The fellow's record; goals and the stored result are computed by the tool's own functions, as the screens would. */
export function everythingOfFellow(seed = FELLOW_SEED): Everything {
  const record = inventFellow(seed);
  const first = goalOf(record, {
    id: 'goal-1',
    stepId: FELLOW_TRUTH.step,
    windowAt: record.firstWindowAt,
    chosenBy: 'reference',
    ifThen: 'If the edge starts to run out, then I stop and refill.',
  });
  const second = goalOf(record, {
    id: 'goal-2',
    stepId: FELLOW_TRUTH.secondStep,
    windowAt: record.secondWindowAt,
    chosenBy: 'reference',
    ifThen: 'If the port is not in view, then I let go and find it first.',
  });
  const result = resultOf(first, record);
  const keptOn = dayAfter(result.storedAt.slice(0, 10), 2);
  const closed: Goal = {
    ...first,
    state: 'closed',
    decisions: [
      { at: `${keptOn}T18:30:00.000Z`, kind: 'keep', reason: 'The refill before each regrasp has become a habit.' },
    ],
  };
  const reflections = reflectionsOf(record, [closed, second]);
  return withLasted({
    ...blank('phaco'),
    profile: {
      ...emptyProfile,
      inTraining: true,
      casesBefore: { phaco: 60 },
      seriousRate: { rate: 0.0195, source: 'Eye 2015;29:552, 180,114 eyes, UK 2006–10' },
    },
    cases: record.cases.map((one) => withProtectedSeen(one, reflections)),
    lists: record.lists,
    goals: [closed, second],
    results: [result],
    reflections,
    references: [readersOf(record)],
  });
}

const readersOf = (record: FellowRecord): ReferenceSet => ({
  id: 'reference-1',
  label: 'Three experienced surgeons of the unit',
  procedureId: 'phaco',
  agreedAt: '2026-02-01T09:00:00.000Z',
  cases: record.reference,
  invented: true,
});

const phaco = () => {
  const procedure = loadProcedures().find((each) => each.id === 'phaco');
  if (!procedure) throw new Error('phaco is shipped with the tool');
  return procedure;
};

type Wanted = { id: string; stepId: string; windowAt: number; chosenBy: Goal['chosenBy']; ifThen: string };

function goalOf(record: FellowRecord, wanted: Wanted): Goal {
  const procedure = phaco();
  const before = record.cases.filter((one) => one.sequence < wanted.windowAt);
  const started = startGoal({
    cases: before,
    lists: record.lists,
    procedure,
    references: [readersOf(record)],
    stepId: wanted.stepId,
    measure: 'time',
    chosenBy: wanted.chosenBy,
    seed: SEED,
    engine: ENGINE,
  });
  if (started.kind !== 'start') throw new Error(`the invented record must let a goal start: ${started.why.code}`);
  const page = loadGuidance().find((each) => each.procedureId === 'phaco' && each.step === wanted.stepId);
  const step = procedure.steps.find((each) => each.id === wanted.stepId);
  if (!page || !step) throw new Error('the step has a page');
  const last = before[before.length - 1];
  return {
    id: wanted.id,
    procedureId: 'phaco',
    stepId: wanted.stepId,
    measure: 'time',
    checkpoints: page.checkpoints.slice(1, 4).map(({ id, look }) => ({ id, look })),
    ifThen: wanted.ifThen,
    watch: step.protectedParts.slice(0, 1).map((part) => part.id),
    stopSigns: [...page.stop],
    reminders: [...page.reminders],
    baseline: started.baseline,
    windowLength: 20,
    agreed: { answer: 'yes', why: null },
    chosenBy: wanted.chosenBy,
    reason: null,
    setAt: `${dayOf(last, record.lists)}T19:00:00.000Z`,
    afterSequence: last?.sequence ?? 0,
    listAtStart: last?.listId ?? null,
    state: 'running',
    decisions: [],
    timesShown: [],
    invented: true,
  };
}

const dayOf = (one: Case | undefined, lists: readonly ListRecord[]): string => {
  const when = lists.find((list) => list.id === one?.listId)?.when;
  return when?.kind === 'date' ? when.date : '2026-02-10';
};

function resultOf(goal: Goal, record: FellowRecord): StoredResult {
  const procedure = phaco();
  const [windowIds] = windowOf(goal, record.cases, record.lists, procedure).windows;
  if (!windowIds) throw new Error('the first window of the invented fellow must be full');
  const last = record.cases.find((one) => one.id === windowIds[windowIds.length - 1]);
  const used = new Set([...goal.baseline.caseIds, ...windowIds]);
  return {
    id: 'result-1',
    goalId: goal.id,
    look: 'first',
    storedAt: `${dayOf(last, record.lists)}T20:00:00.000Z`,
    inputHash: hashOfCases(record.cases.filter((one) => used.has(one.id))),
    baselineIds: goal.baseline.caseIds,
    windowIds,
    stepId: goal.stepId,
    seed: SEED,
    engine: ENGINE,
    outcome: resultFor({
      cases: record.cases.filter((one) => one.sequence <= (last?.sequence ?? 0)),
      lists: record.lists,
      procedure,
      baseline: goal.baseline,
      windowIds,
      stepId: goal.stepId,
      measure: 'time',
      look: 'first',
      seed: SEED,
      watch: goal.watch,
    }),
  };
}

/** Whether it lasted, read on the evening of the list that filled each following twenty. */
function withLasted(record: Everything): Everything {
  const [goal] = record.goals;
  if (!goal) return record;
  const read = { ...record, procedures: [phaco()] };
  const state = goalReading(read, goal);
  const lasted = lastingOf(read, state).map((lasting) => {
    const ids = state.window.windows[lasting.nth] ?? [];
    const last = record.cases.find(({ id }) => id === ids[ids.length - 1]);
    return { at: `${dayOf(last, record.lists)}T20:00:00.000Z`, lasting };
  });
  return { ...record, results: record.results.map((result) => ({ ...result, lasted })) };
}

/** A note a list after review; the last four cases of the running goal still wait. */
function reflectionsOf(record: FellowRecord, goals: readonly Goal[]): Reflection[] {
  const found: Reflection[] = [];
  for (const goal of goals) {
    const window = windowOf(goal, record.cases, record.lists, phaco());
    const followed = goal.state === 'closed' ? window.windows.slice(0, 3).flat() : window.counted.slice(0, -4);
    const byList = new Map<string, string[]>();
    for (const id of followed) {
      const listId = record.cases.find((one) => one.id === id)?.listId ?? '';
      byList.set(listId, [...(byList.get(listId) ?? []), id]);
    }
    let nth = 0;
    for (const [listId, caseIds] of byList) {
      const stream = randomStream(SEED, 7000, found.length);
      const note = FELLOW_NOTES[goal.stepId]?.[nth];
      nth += 1;
      const list = record.lists.find((each) => each.id === listId);
      const day = list?.when.kind === 'date' ? list.when.date : goal.setAt.slice(0, 10);
      found.push({
        id: `reflection-${found.length + 1}`,
        at: `${dayAfter(day, 1)}T18:00:00.000Z`,
        caseIds,
        goalId: goal.id,
        stepId: goal.stepId,
        answers: caseIds.flatMap((caseId) =>
          goal.checkpoints.map((checkpoint) => ({
            caseId,
            checkpointId: checkpoint.id,
            answer: pick(stream, [
              ['done', 6],
              ['partly', 2],
              ['not', 1],
              ['did-not-arise', 0.7],
            ] as const),
          })),
        ),
        beforeLengths: true,
        protectedSeen: caseIds.flatMap((caseId) =>
          goal.watch.map((protectedPartId) => ({ caseId, protectedPartId, seen: stream.uniform() < 0.96 })),
        ),
        saw: note?.saw ?? '',
        willTry: note?.willTry ?? '',
        tags: note?.tags ?? [],
        history: [],
        invented: true,
        version: 1,
      });
    }
  }
  return found;
}

const withProtectedSeen = (one: Case, reflections: readonly Reflection[]): Case => ({
  ...one,
  protectedSeen: {
    ...one.protectedSeen,
    ...Object.fromEntries(
      reflections
        .flatMap((each) => each.protectedSeen)
        .filter((kept) => kept.caseId === one.id)
        .map((kept) => [kept.protectedPartId, kept.seen]),
    ),
  },
});
