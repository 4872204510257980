import { expect, it } from 'vitest';
import { slugFrom } from '../../src/lib/rooms/settings/procedures/slug-from';
import { openMemoryStore } from '../../src/lib/server/storage';
import { aCase } from '../made-up/stored';
import { asked, modules } from './rooms';

it('a step called as what every object has gets another id, and one that has it closes no room', async () => {
  expect(slugFrom('Constructor', [])).toBe('constructor-2');
  const store = await openMemoryStore();
  const step = (id: string) => ({
    id,
    label: id,
    starts: 'it begins',
    ends: 'it is over',
    synonyms: [],
    earlier: [],
    optional: false,
    notToShorten: false,
    protectedParts: [],
    retired: false,
  });
  const own = {
    name: 'An own one',
    synonyms: [],
    facts: [],
    waitingReasons: [],
    eventKinds: [],
    origin: 'own' as const,
  };
  await store.changeProcedure('own', () => ({ ...own, id: 'own', steps: [step('constructor'), step('other')] }));
  const list = await store.recordList({
    label: null,
    when: { kind: 'date', date: '2026-03-02' },
    operated: 30,
    anaesthesia: null,
    machine: null,
    teaching: null,
    eventsAnsweredForAll: null,
    nextDayKnown: null,
    untimedEvents: [],
  });
  for (let nth = 1; nth <= 30; nth += 1)
    await store.recordCase(
      aCase(`C${nth}`, {
        procedureId: 'own',
        sequence: nth,
        listId: list.id,
        stretches: ['constructor', 'other'].map((stepId, at) => ({
          stepId,
          start: 100 * at,
          end: 100 * at + 30 + nth,
          seconds: 30 + nth,
          kind: 'step' as const,
          reason: null,
        })),
      }),
    );
  const [one] = await store.cases();
  const params = { id: one?.id ?? '', procedure: 'own', step: 'constructor' };
  const rooms = [
    '/',
    '/cases',
    '/cases/[id]',
    '/choose',
    '/choose/[step]',
    '/plan',
    '/report',
    '/settings',
    '/reflect',
    '/choose/over-time',
    '/cases/cases.csv',
  ];
  for (const id of rooms) {
    const file = Object.keys(modules).find(
      (each) =>
        each.replace(/^.*src\/routes/, '').replace(/\/\+[a-z.]+$/, '') === (id === '/' ? '' : id) &&
        !each.includes('layout'),
    );
    const module = file ? await modules[file]?.() : undefined;
    const answer = module?.load ?? module?.GET;
    if (!answer) throw new Error(`no room ${id}`);
    expect(['answered', 'led elsewhere'], id).toContain(
      await asked(store, answer, id, params, '?procedure=own&step=constructor'),
    );
  }
  expect((await store.caseById(params.id))?.stretches).toHaveLength(2);
});
