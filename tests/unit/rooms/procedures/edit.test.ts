import { describe, expect, it } from 'vitest';
import { asShipped, sameProcedure } from '../../../../src/lib/rooms/settings/procedures/as-shipped';
import { namesFrom, namesText } from '../../../../src/lib/rooms/settings/procedures/lines';
import { procedureProblems } from '../../../../src/lib/rooms/settings/procedures/problems';
import { slugFrom } from '../../../../src/lib/rooms/settings/procedures/slug-from';
import {
  moved,
  takingOut,
  withoutStep,
  withStep,
  withStepBack,
} from '../../../../src/lib/rooms/settings/procedures/steps';
import { useOf } from '../../../../src/lib/rooms/settings/procedures/use';
import { countedCases, stepTable, stepSecondsOf } from '../../../../src/lib/audit';
import { procedureSchema, type Procedure } from '../../../../src/lib/model';
import { loadProcedures } from '../../../../src/lib/server/content/library';
import { aCase, aGoal, aRecord, smallProcedure } from '../../../made-up/record';

const nothing = useOf(aRecord(), 'small');
const added = { ...smallProcedure.steps[0]!, id: 'polish', label: 'Capsule polish' };
const edited: Procedure = withStep(smallProcedure, added, 'cortex');
const ids = (procedure: Procedure) => procedure.steps.map(({ id }) => id);

describe('ids from words', () => {
  it.each([
    ['Capsulorhexis', 'capsulorhexis'],
    ['I/A, second time', 'i-a-second-time'],
    ['Déchirure', 'dechirure'],
    ['новый', 'own'],
    ['new', 'new-2'],
  ])('%s is %s', (text, id) => expect(slugFrom(text, [])).toBe(id));

  it('are never given twice, and always fit the schema', () => {
    expect(slugFrom('Cut', ['cut', 'cut-2'])).toBe('cut-3');
    expect(slugFrom('a'.repeat(200), [])).toHaveLength(56);
    expect(slugFrom('---', ['own'], 'own')).toBe('own-2');
  });
});

describe('other names', () => {
  it('come back as they were, for every step and fact that is shipped', () => {
    for (const { steps, facts, synonyms } of loadProcedures())
      for (const names of [synonyms, ...steps.map((step) => step.synonyms), ...facts.map((fact) => fact.synonyms)])
        expect(namesFrom(namesText(names))).toEqual([...new Set(names)]);
  });
});

describe('the order of steps', () => {
  it('moves one place past what is shown', () => {
    expect(ids({ ...edited, steps: moved(edited.steps, 'polish', 'up') })).toEqual([
      'side-port',
      'capsulorhexis',
      'polish',
      'cortex',
      'wound-check',
    ]);
    const retired = { ...edited, steps: edited.steps.map((s) => ({ ...s, retired: s.id === 'polish' })) };
    const up = moved(retired.steps, 'wound-check', 'up', (one) => one.retired);
    expect(up.map(({ id }) => id).indexOf('wound-check')).toBeLessThan(up.map(({ id }) => id).indexOf('cortex'));
  });
  it('leaves the first and the last where they are', () => {
    expect(moved(edited.steps, 'side-port', 'up').map(({ id }) => id)).toEqual(ids(edited));
    expect(moved(edited.steps, 'wound-check', 'down').map(({ id }) => id)).toEqual(ids(edited));
    expect(moved(edited.steps, 'unknown', 'down').map(({ id }) => id)).toEqual(ids(edited));
  });
});

describe('taking a step out', () => {
  const stretch = { stepId: 'polish', start: null, end: null, seconds: 12, kind: 'step' as const, reason: null };
  const timed = [aCase(1, { stretches: [...aCase(1).stretches, stretch] }), aCase(2)];

  it('retires one that has timings and never deletes it; its timings still count', () => {
    const record = aRecord({ procedures: [edited], cases: timed });
    const use = useOf(record, 'small');
    expect(use.timed.get('polish')).toBe(1);
    const after = withoutStep(edited, 'polish', use, smallProcedure);
    expect(after.steps.find(({ id }) => id === 'polish')).toMatchObject({ retired: true });
    expect(stepSecondsOf(timed[0]!, 'polish')).toBe(12);
    const table = stepTable(countedCases(timed, after), after, []);
    expect(table.stepIds).toContain('polish');
    expect(table.seconds[table.stepIds.indexOf('polish')]?.[0]).toBe(12);
    expect(withStepBack(after, 'polish')).toEqual(edited);
  });

  it('retires one with waiting or a protected part alone, in a case that is left out too', () => {
    for (const kind of ['waiting', 'protected'] as const) {
      const left = { reason: 'other' as const, timesSeen: false, at: '2026-05-01T00:00:00Z' };
      const cases = [aCase(1, { stretches: [{ ...stretch, kind }], leftOut: left })];
      const use = useOf(aRecord({ procedures: [edited], cases }), 'small');
      expect(takingOut(added, use, edited, smallProcedure)).toBe('retire');
    }
  });

  it('retires one a goal, an event, whose hands or a checkpoint of one’s own speaks of', () => {
    const event = { kind: 'tear', stepId: 'polish', serious: false, nearMiss: true, noticed: 'during', reviewed: null };
    const own = {
      id: 'own-1',
      procedureId: 'small',
      stepId: 'polish',
      look: 'x',
      text: '',
      at: '2026-05-01T00:00:00Z',
    };
    const records = [
      aRecord({ goals: [aGoal(0, { stepId: 'polish' })] }),
      aRecord({ cases: [aCase(1, { events: [event as never] })] }),
      aRecord({ cases: [aCase(1, { hands: { whole: 'mine', steps: { polish: 'shared' } } })] }),
      { ...aRecord(), profile: { ...aRecord().profile, ownCheckpoints: [own] } },
    ];
    for (const record of records)
      expect(takingOut(added, useOf(record, 'small'), edited, smallProcedure)).toBe('retire');
  });

  it('retires a shipped step always, and a part of a merged one', () => {
    expect(takingOut(smallProcedure.steps[0]!, nothing, edited, smallProcedure)).toBe('retire');
    const merged = withStep(edited, { ...added, id: 'both', label: 'Both', mergeOf: ['cortex', 'polish'] });
    expect(takingOut(added, nothing, merged, smallProcedure)).toBe('retire');
  });

  it('deletes one of the surgeon’s own nothing speaks of, and every word that named it as an earlier step', () => {
    const named = withStep(edited, { ...edited.steps.at(-1)!, earlier: ['polish', 'cortex'] });
    const after = withoutStep(named, 'polish', nothing, smallProcedure);
    expect(ids(after)).toEqual(ids(smallProcedure));
    expect(after.steps.at(-1)?.earlier).toEqual(['cortex']);
    expect(procedureSchema.safeParse(after).success).toBe(true);
  });
});

describe('putting back to as shipped', () => {
  const fact = {
    id: 'clear',
    label: 'Clear cornea',
    kind: 'yes-no' as const,
    key: 'C',
    synonyms: [],
    asked: 'more' as const,
  };
  const changed: Procedure = {
    ...edited,
    name: 'My operation',
    facts: [...edited.facts, fact],
    waitingReasons: [...edited.waitingReasons, { id: 'door', label: 'door' }],
  };

  it('gives exactly the shipped procedure where nothing rests on the changes', () => {
    expect(asShipped(changed, smallProcedure, nothing)).toEqual(smallProcedure);
    expect(sameProcedure(changed, smallProcedure)).toBe(false);
    expect(sameProcedure({ ...smallProcedure }, smallProcedure)).toBe(true);
  });

  it('keeps what the record rests on: a timed step retired in its place, a fact no longer asked, a reason', () => {
    const stretches = [
      ...aCase(1).stretches,
      { stepId: 'polish', start: null, end: null, seconds: 12, kind: 'step' as const, reason: null },
      { stepId: 'polish', start: null, end: null, seconds: 4, kind: 'waiting' as const, reason: 'door' },
    ];
    const record = aRecord({ procedures: [changed], cases: [aCase(1, { stretches, facts: { clear: true } })] });
    const back = asShipped(changed, smallProcedure, useOf(record, 'small'));
    expect(back.name).toBe('Small operation');
    expect(ids(back)).toEqual(['side-port', 'capsulorhexis', 'cortex', 'polish', 'wound-check']);
    expect(back.steps.filter(({ retired }) => retired).map(({ id }) => id)).toEqual(['polish']);
    expect(back.facts.at(-1)).toEqual({
      id: 'clear',
      label: 'Clear cornea',
      kind: 'yes-no',
      synonyms: [],
      asked: 'file',
    });
    expect(back.waitingReasons.map(({ id }) => id)).toEqual(['lens-loading', 'door']);
    expect(procedureProblems(back)).toEqual([]);
  });

  it('brings a retired shipped step back, and lets an added answer give way to a shipped key', () => {
    const nucleus = smallProcedure.facts[0]!;
    const own: Procedure = {
      ...smallProcedure,
      steps: smallProcedure.steps.map((step) => ({ ...step, retired: step.id === 'cortex' })),
      facts: smallProcedure.facts.map((each) =>
        each.id === 'nucleus'
          ? {
              ...nucleus,
              levels: [
                { id: 'soft', label: 'soft', key: '3' },
                { id: 'white', label: 'white', key: '1' },
              ],
            }
          : each,
      ),
    };
    const cases = [aCase(1, { facts: { nucleus: 'white' } })];
    const back = asShipped(own, smallProcedure, useOf(aRecord({ procedures: [own], cases }), 'small'));
    expect(back.steps.some(({ retired }) => retired)).toBe(false);
    expect(back.facts[0]?.levels?.map(({ id, key }) => `${key} ${id}`)).toEqual(['1 soft', '2 hard', '3 white']);
  });
});
