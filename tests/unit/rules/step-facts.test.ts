import { describe, expect, it } from 'vitest';
import { auditOf } from '../../../src/lib/audit';
import type { Case, Event } from '../../../src/lib/model';
import { planDraft, safetyFactsOf, stepFactsOf, suggestionOf } from '../../../src/lib/rules';
import { case_, length, listRecord, procedure, step } from '../../made-up/cases';
import { plainProcedure, recordOf } from '../../bench/simulated-record';
import { guidance, noEvents } from './made-up-audit';

const event = (more: Partial<Event> = {}): Event => ({
  kind: 'other',
  stepId: 'a',
  serious: true,
  nearMiss: false,
  noticed: 'during',
  reviewed: null,
  ...more,
});
const reviewed = { at: '2026-01-01T10:00:00Z', text: 'done' };
const merging = procedure([step('both', { mergeOf: ['a', 'b'] }), step('a'), step('b'), step('c')]);
const cases = (events: Readonly<Record<number, Event[] | null>>, count = 50): Case[] =>
  Array.from({ length: count }, (_, place) =>
    case_(place + 1, [length('a', 60)], { events: events[place + 1] === undefined ? [] : events[place + 1]! }),
  );
const of = (given: readonly Case[], stepIds = ['a', 'c']) => safetyFactsOf(given, [], merging, stepIds);

describe('events tied to a step', () => {
  it('are counted: waiting for review, in the last 100 answered, and how long ago', () => {
    const facts = of(
      cases({ 10: [event({ reviewed })], 45: [event(), event({ stepId: 'c', serious: false, nearMiss: true })] }),
    );
    expect(facts.steps).toEqual([
      { stepId: 'a', seriousUnreviewed: 1, seriousLast100: 2, casesSinceLatest: 5, kinds: ['other'] },
      { stepId: 'c', seriousUnreviewed: 0, seriousLast100: 0, casesSinceLatest: 5, kinds: ['other'] },
    ]);
    expect(facts).toMatchObject({ monitorSignalled: false, unreviewedElsewhere: 0 });
    expect(of(cases({})).steps[0]).toEqual({
      stepId: 'a',
      seriousUnreviewed: 0,
      seriousLast100: 0,
      casesSinceLatest: null,
      kinds: [],
    });
  });

  it('reach back 100 answered cases, not 100 cases', () => {
    const answered = cases({ 1: [event({ reviewed })] }, 150).map((each, place) =>
      place > 0 && place < 60 ? { ...each, events: null } : each,
    );
    expect(of(answered).steps[0]?.seriousLast100).toBe(1);
    expect(of(cases({ 1: [event({ reviewed })] }, 150)).steps[0]?.seriousLast100).toBe(0);
  });

  it('are not lost to a label: a part counts for the merged step and the other way round', () => {
    expect(of(cases({ 3: [event({ stepId: 'b' })] }), ['both', 'c']).steps[0]?.seriousUnreviewed).toBe(1);
    expect(
      of(cases({ 3: [event({ stepId: 'both' })] }), ['a', 'b', 'c']).steps.map(
        ({ seriousUnreviewed }) => seriousUnreviewed,
      ),
    ).toEqual([1, 1, 0]);
  });

  it('count when tied to no step, when untimed, and in a case left out', () => {
    expect(of(cases({ 3: [event({ stepId: null })] })).unreviewedElsewhere).toBe(1);
    const untimed = listRecord(1, { untimedEvents: [event({ stepId: 'c' }), event({ reviewed })] });
    expect(safetyFactsOf(cases({}), [untimed], merging, ['a', 'c']).steps[1]?.seriousUnreviewed).toBe(1);
    const left = cases({ 3: [event()] }).map((each) => ({
      ...each,
      leftOut: { reason: 'other' as const, timesSeen: true, at: reviewed.at },
    }));
    expect(of(left).steps[0]?.seriousUnreviewed).toBe(1);
  });
});

describe('what the rules look at', () => {
  const pause = { id: 'pause', label: 'Pause' };
  const nine = plainProcedure(9);
  const kept = {
    ...nine,
    steps: nine.steps.map((each, place) => (place === 0 ? { ...each, protectedParts: [pause] } : each)),
  };
  const record = (more: (place: number) => Partial<Case>) =>
    recordOf({ cases: 60, usual: Array.from({ length: 9 }, () => 60) }, 3).map((each, place) => ({
      ...each,
      ...more(place),
    }));
  const factsOf = (given: readonly Case[]) => {
    const audit = auditOf({ cases: given, lists: [], procedure: kept, references: [], seed: 1, resamples: 50 });
    return stepFactsOf(audit, given, 's1', noEvents)!;
  };

  it('is gathered from the cases shown', () => {
    const facts = factsOf(record((place) => (place % 2 ? { protectedSeen: { pause: place % 4 === 1 } } : {})));
    expect(facts.protectedParts).toEqual([{ id: 'pause', label: 'Pause', seen: 15, looked: 30 }]);
    expect(facts.cases).toBe(60);
    expect(facts.safety.casesSinceLatest).toBeNull();
  });

  it('knows whether the shorter fifth left nothing out, or that it is not known', () => {
    expect(factsOf(record(() => ({ events: [], protectedSeen: { pause: true } }))).shorterFifthClean).toBe(true);
    expect(factsOf(record(() => ({ events: null }))).shorterFifthClean).toBeNull();
    expect(factsOf(record(() => ({ events: [], protectedSeen: {} }))).shorterFifthClean).toBeNull();
    expect(factsOf(record(() => ({ events: [], protectedSeen: { pause: false } }))).shorterFifthClean).toBe(false);
    const given = record((place) => ({ events: [], protectedSeen: { pause: place > 29 } }));
    const { shorterFifthMissed, step } = factsOf(given);
    const short = step.dots.filter(({ seconds }) => seconds <= step.p20!).map(({ code }) => code);
    expect(shorterFifthMissed).toEqual(
      given
        .slice(0, 30)
        .filter(({ code }) => short.includes(code))
        .map(({ code }) => ({ code, event: false, notSeen: ['Pause'] })),
    );
    expect(shorterFifthMissed.length).toBeGreaterThan(0);
  });

  it('leads from cases to a suggestion and a draft without a break', () => {
    const given = recordOf({ cases: 100, usual: [300, 60, 60, 60, 60, 60, 60, 60, 60] }, 4);
    const audit = auditOf({ cases: given, lists: [], procedure: kept, references: [], seed: 1, resamples: 200 });
    const safety = safetyFactsOf(
      given,
      [],
      kept,
      audit.steps.map(({ stepId }) => stepId),
    );
    const suggestion = suggestionOf(audit, safety);
    expect(suggestion).toMatchObject({ kind: 'time', steps: ['s1'], view: 'seconds' });
    const draft = planDraft(stepFactsOf(audit, given, 's1', safety)!, guidance('s1'));
    expect(draft.because.map(({ code }) => code)).toContain('longer');
    expect(draft.watch).toEqual(['pause']);
    expect(stepFactsOf(audit, given, 'nowhere', safety)).toBeNull();
  });
});
