import { describe, expect, it } from 'vitest';
import {
  countAgain,
  keepAsItIs,
  leaveOut,
  liftKeep,
  together,
  withEvents,
  withFacts,
  withHands,
} from '../../../src/lib/rooms/cases/case-change';
import { caseView } from '../../../src/lib/rooms/cases/case-view';
import { stretchesFromForm } from '../../../src/lib/rooms/forms/stretch-fields';
import { aCase, aRecord, smallProcedure } from '../../made-up/record';

const NOW = '2026-05-02T09:00:00.000Z';

describe('changing a case', () => {
  it('marks a fact changed after its times were seen, and keeps both values', () => {
    const change = withFacts(aCase(1, { facts: { nucleus: 'soft' } }), { nucleus: 'hard' }, smallProcedure, true, NOW);
    expect(change?.case.factChanges).toEqual([{ factId: 'nucleus', before: 'soft', after: 'hard', at: NOW }]);
    expect(change?.what).toBe('Nucleus: soft → hard (after its times were seen)');
  });

  it('does not mark a fact entered before', () => {
    const change = withFacts(aCase(1), { nucleus: 'hard' }, smallProcedure, false, NOW);
    expect(change?.case.factChanges).toEqual([]);
    expect(change?.what).toBe('Nucleus: not entered → hard');
  });

  it('is nothing where nothing differs', () => {
    const one = aCase(1, { facts: { nucleus: 'hard' } });
    expect(withFacts(one, { nucleus: 'hard' }, smallProcedure, true, NOW)).toBeNull();
    expect(withHands(one, { whole: 'mine', steps: {} }, smallProcedure)).toBeNull();
    expect(withEvents(one, [], smallProcedure)).toBeNull();
    expect(countAgain(one)).toBeNull();
  });

  it('tells several changes in one line of history', () => {
    const change = together(aCase(1, { events: null }), [
      (at) => withFacts(at, { nucleus: 'hard' }, smallProcedure, false, NOW),
      (at) => withHands(at, { whole: 'mine', steps: { cortex: 'taken-over' } }, smallProcedure),
      (at) => withEvents(at, [], smallProcedure),
    ]);
    expect(change?.what).toBe(
      'Nucleus: not entered → hard. Hands: all mine → Cortex aspiration: taken over here. Events: not answered → none',
    );
  });

  it('remembers whether times had been seen when a case was left out, and what it was when it counts again', () => {
    const { case: left, what } = leaveOut(aCase(1), 'timing-unreliable', true, NOW);
    expect(what).toBe('Left out: the timing is unreliable (times had been seen)');
    expect(countAgain(left)?.what).toContain('the timing is unreliable');
  });

  it('keeps a case as it is and lifts it with a reason', () => {
    const { case: kept } = keepAsItIs(aCase(1), 'inquiry', NOW);
    expect(liftKeep(kept, 'closed')?.what).toContain('It had been since 2026-05-02: inquiry');
  });
});

describe('the page of a case', () => {
  it('shows step time less waiting, and who did a step that was not mine', () => {
    const one = aCase(1, {
      stretches: [
        { stepId: 'cortex', start: null, end: null, seconds: 90, kind: 'step', reason: null },
        { stepId: 'cortex', start: null, end: null, seconds: 30, kind: 'waiting', reason: 'lens-loading' },
        { stepId: 'wound-check', start: null, end: null, seconds: 50, kind: 'step', reason: null },
      ],
      hands: { whole: 'mine', steps: { 'wound-check': 'someone-else' } },
    });
    const view = caseView(one, aRecord({ cases: [one] }), false);
    expect(view.steps).toEqual([
      ['Cortex aspiration', '1:00', '0:30', ''],
      ['Wound check', 'not mine', '', ''],
    ]);
    expect(view.stretches[1]).toEqual(['Cortex aspiration', 'waiting: lens loading', '', '', '0:30']);
  });

  it('holds no time at all while its window runs', () => {
    const view = caseView(aCase(1), aRecord(), true);
    expect([view.summary, view.steps, view.stretches, view.edit]).toEqual([null, [], [], null]);
  });

  it('tells a fact changed late beside what it was', () => {
    const one = aCase(1, {
      facts: { nucleus: 'hard' },
      factChanges: [{ factId: 'nucleus', before: null, after: 'hard', at: NOW }],
    });
    expect(caseView(one, aRecord(), false).facts[0]).toEqual({
      label: 'Nucleus',
      value: 'hard',
      changed: 'before its times were seen: not entered; changed on 2 May 2026',
    });
  });

  it('tells of a fact changed twice what stood there before the times were seen, and that it was put back', () => {
    const there = { factId: 'nucleus', before: 'soft', after: 'hard', at: NOW };
    const back = { ...there, before: 'hard', after: 'soft', at: '2026-05-03T09:00:00.000Z' };
    const of = (nucleus: string, ...factChanges: (typeof there)[]) =>
      caseView(aCase(1, { facts: { nucleus }, factChanges }), aRecord(), false).facts[0]?.changed;
    expect(of('soft', there, back)).toBe('before its times were seen: soft; changed and put back on 3 May 2026');
    expect(of('hard', there, back, { ...there, at: '2026-05-04T09:00:00.000Z' })).toBe(
      'before its times were seen: soft; changed on 4 May 2026',
    );
  });

  it('tells anything else in one line, and not entered from none', () => {
    const of = (facts: Record<string, boolean>) =>
      caseView(aCase(1, { facts }), aRecord(), false).facts.find(({ label }) => label === 'Anything else')?.value;
    expect(of({})).toBe('not entered');
    expect(of({ 'floppy-iris': false, toric: false })).toBe('none');
    expect(of({ 'floppy-iris': true, toric: false })).toBe('Floppy iris');
  });

  it('distinguishes events not answered from none', () => {
    expect(caseView(aCase(1, { events: null }), aRecord(), false).events).toBeNull();
    expect(caseView(aCase(1), aRecord(), false).events).toEqual([]);
  });
});

describe('editing stretches', () => {
  const edit = (rows: Record<string, string>[]) =>
    stretchesFromForm(
      Object.fromEntries([
        ['stretches', [String(rows.length)]],
        ...rows.flatMap((row, index) =>
          Object.entries(row).map(([name, text]) => [`stretch-${index}-${name}`, [text]]),
        ),
      ]),
      smallProcedure,
    );

  it('reads clock readings and lengths alone, and drops a row without times', () => {
    const { stretches, errors } = edit([
      { step: 'cortex', kind: 'step', from: '1:10', to: '2:00', length: '', reason: '' },
      { step: 'cortex', kind: 'waiting', from: '', to: '', length: '12', reason: 'lens-loading' },
      { step: 'side-port', kind: 'step', from: '', to: '', length: '', reason: '' },
    ]);
    expect(errors).toEqual([]);
    expect(stretches).toEqual([
      { stepId: 'cortex', start: 70, end: 120, seconds: 50, kind: 'step', reason: null },
      { stepId: 'cortex', start: null, end: null, seconds: 12, kind: 'waiting', reason: 'lens-loading' },
    ]);
  });

  it('names the row whose end lies before its start, and the one with half a clock', () => {
    expect(edit([{ step: 'cortex', kind: 'step', from: '50', to: '40' }]).errors).toEqual([
      { field: 'stretch-0-to', message: expect.stringContaining('Row 1: it ends at 40, before it starts (50)') },
    ]);
    expect(edit([{ step: 'cortex', kind: 'step', from: '50', to: '' }]).errors[0]?.field).toBe('stretch-0-to');
  });

  it('lets only waiting stand between steps', () => {
    expect(edit([{ step: '', kind: 'step', length: '12' }]).errors[0]?.message).toContain('choose the step');
    expect(edit([{ step: '', kind: 'waiting', length: '12' }]).errors).toEqual([]);
  });
});
