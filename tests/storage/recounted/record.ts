import type { Case, Event, Goal, ListRecord, Reflection, SurgeonRecord } from '../../../src/lib/model';
import { startGoal } from '../../../src/lib/practice';
import { readRecord } from '../../../src/lib/server/record';
import { readLasted, readResult } from '../../../src/lib/server/results';
import { openMemoryStore, type Store } from '../../../src/lib/server/storage';
import { randomStream } from '../../../src/lib/statistics';
import { length } from '../../made-up/cases';
import { aTear, plainCase, plainList } from '../../made-up/plain';
import { operation } from '../../made-up/month';
import { goalAsked } from '../../made-up/goal-on';
import { goalWindow } from '../../../src/lib/rooms/goals/goal-window';

/** The record at one moment of its month. */
export type Moment = { name: string; record: SurgeonRecord; day: string };

const LIST_SIZE = 4;
const SET_AFTER = 48;
const dayOf = (list: number) => new Date(Date.UTC(2026, 0, 5 + 7 * (list - 1))).toISOString().slice(0, 10);

const tear: Event = aTear('practised', {
  reviewed: { at: '2026-02-20T18:00:00.000Z', text: 'Looked at with a senior colleague.' },
});

/** What makes a record untidy: events answered, not answered, tied to no step; facts unknown; cases untimed, left out, shared. */
function untidy(at: number): Partial<Case> {
  return {
    events: at % 11 === 3 ? null : at === 9 ? [tear] : at === 16 ? [{ ...tear, stepId: null, serious: false }] : [],
    ...(at % 13 === 5 ? { facts: {} } : {}),
    ...(at % 17 === 6 ? { stretches: [] } : {}),
    ...(at % 19 === 8
      ? {
          leftOut: {
            reason: 'timing-unreliable' as const,
            timesSeen: false,
            at: `${dayOf(1 + Math.floor(at / LIST_SIZE))}T20:00:00.000Z`,
          },
        }
      : {}),
    ...(at % 9 === 4 ? { hands: { whole: 'mine' as const, steps: { sixth: 'taken-over' as const } } } : {}),
    ...(at % 7 === 2 ? { returnsNoted: { third: 1 } } : {}),
    protectedSeen: at % 5 === 0 ? {} : { pause: at % 10 !== 1 },
  };
}

/** The practised step varies most at first, and takes a third less from the goal on. */
function typed(at: number): Omit<Case, 'id' | 'version' | 'history' | 'sequence' | 'listId'> {
  const stream = randomStream(8, at);
  const dense = at % 10 < 3;
  const stretches = operation.steps.map(({ id }, step) => {
    const later = at >= SET_AFTER && step === 1 ? Math.log(0.66) : 0;
    const seconds =
      (30 + 10 * step) * Math.exp((dense ? 0.2 : 0) + (step === 1 ? 0.22 : 0.12) * stream.normal() + later);
    return length(id, Math.max(3, Math.round(seconds)));
  });
  if (at % 6 === 1) stretches.push(length('fifth', 8, { kind: 'waiting', reason: 'lens-loading' }));
  return {
    ...plainCase(),
    code: `K${at + 1}`,
    procedureId: operation.id,
    position: 1 + (at % LIST_SIZE),
    stretches,
    facts: { dense },
    ...untidy(at),
  };
}

/** From empty to *lasted*, by the app's own changes; what the record was at each moment. */
export async function walked(): Promise<Moment[]> {
  const store = await openMemoryStore();
  const moments: Moment[] = [];
  let cases = 0;
  const keep = async (name: string) =>
    void moments.push({ name, record: await readRecord(store), day: dayOf(Math.max(1, Math.ceil(cases / LIST_SIZE))) });
  const operate = async (lists: number) => {
    for (let list = 0; list < lists; list += 1) {
      const number = cases / LIST_SIZE + 1;
      const of: Omit<ListRecord, 'id'> = {
        ...plainList(),
        label: null,
        when: { kind: 'date', date: dayOf(number) },
        operated: number % 3 === 0 ? null : LIST_SIZE + 2,
        eventsAnsweredForAll: number % 4 === 1 ? true : null,
      };
      await store.recordCases(
        of,
        Array.from({ length: LIST_SIZE }, (_, place) => typed(cases + place)),
      );
      cases += LIST_SIZE;
    }
  };
  await store.changeProcedure(operation.id, () => operation);
  await store.changeProfile((profile) => ({ ...profile, procedureId: operation.id }));
  await keep('empty');
  await operate(1);
  await keep('the first list');
  await operate(1);
  await keep('8 cases');
  await operate(SET_AFTER / LIST_SIZE - 2);
  await keep('enough to suggest');
  await setGoal(store, dayOf(SET_AFTER / LIST_SIZE));
  await keep('goal set');
  await operate(3);
  await review(store, 0, 7);
  await keep('window half full');
  const goal = async () => (await store.goals())[0]!;
  const full = async (windows: number) => {
    for (let more = 0; more < 12; more += 1) {
      if (goalWindow(await readRecord(store), await goal()).windows.length >= windows) return;
      await operate(1);
    }
    throw new Error('the window does not fill');
  };
  await full(1);
  await review(store, 7, 16);
  await keep('window full');
  const now = () => `${dayOf(cases / LIST_SIZE)}T20:00:00.000Z`;
  if (!(await readResult(store, await readRecord(store), await goal(), now()))) throw new Error('no result to read');
  await keep('result read');
  await store.changeGoal('goal-1', (stored) => ({
    ...stored,
    decisions: [...stored.decisions, { at: now(), kind: 'keep', reason: 'To see whether it lasts.' }],
  }));
  await operate(2);
  await keep('following twenty under way');
  await full(2);
  await keep('following twenty full');
  if (!(await readLasted(store, await readRecord(store), await goal(), now()))) throw new Error('nothing lasted');
  await keep('lasted');
  await store.close();
  return moments;
}

async function setGoal(store: Store, day: string) {
  const { cases, lists } = await readRecord(store);
  const started = startGoal(goalAsked(cases, { lists, resamples: 100 }));
  if (started.kind === 'cannot') throw new Error(started.why.code);
  const last = cases.at(-1)!;
  const goal: Omit<Goal, 'id'> = {
    procedureId: operation.id,
    stepId: 'practised',
    measure: 'time',
    checkpoints: [
      { id: 'fold', look: 'The flap lies folded over.' },
      { id: 'port', look: 'The port is in view.' },
    ],
    ifThen: 'If the edge runs out, then I refill.',
    watch: ['pause'],
    stopSigns: ['The view is lost.'],
    reminders: [],
    baseline: started.baseline,
    windowLength: 20,
    agreed: { answer: 'yes', why: null },
    chosenBy: 'own',
    reason: 'I want to look at it.',
    setAt: `${day}T21:00:00.000Z`,
    afterSequence: last.sequence,
    listAtStart: last.listId,
    state: 'running',
    decisions: [],
    timesShown: [],
    invented: false,
  };
  await store.startGoal(goal);
}

/** Notes on counted cases of the window, a checkpoint answered in each, the other in some. */
async function review(store: Store, from: number, to: number) {
  const record = await readRecord(store);
  const { waitingForReview } = await import('../../../src/lib/rooms/goals/waiting-for-review');
  const ids = waitingForReview(record, record.goals[0]!).slice(0, to - from);
  const note: Omit<Reflection, 'id' | 'version'> = {
    at: '2026-05-01T18:00:00.000Z',
    caseIds: ids,
    goalId: 'goal-1',
    stepId: 'practised',
    answers: ids.flatMap((caseId, at) => [
      { caseId, checkpointId: 'fold', answer: at % 3 === 2 ? ('partly' as const) : ('done' as const) },
      ...(at % 2 === 0
        ? [{ caseId, checkpointId: 'port', answer: at % 4 === 0 ? ('not' as const) : ('did-not-arise' as const) }]
        : []),
    ]),
    beforeLengths: from === 0,
    protectedSeen: [],
    saw: 'The edge stayed in view.',
    willTry: '',
    tags: [],
    history: [],
    invented: false,
  };
  await store.saveReflection(note);
}
