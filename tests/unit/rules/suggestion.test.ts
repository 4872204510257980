import { describe, expect, it } from 'vitest';
import { suggestionOf as suggested } from '../../../src/lib/rules';
import type { SafetyFacts, StepSafety, Suggestion } from '../../../src/lib/rules/types';
import { suggestionReasons, suggestionWords } from '../../../src/lib/words';
import { audit, noEvents, reference, stepAudit } from './made-up-audit';

/** The suggestion, with its reasons as they are read beside it. */
const suggestionOf: (...given: Parameters<typeof suggested>) => Suggestion & { said: string[] } = (record, safety) => {
  const suggestion = suggested(record, safety);
  return { ...suggestion, said: suggestionReasons(record, suggestion) };
};
const first = (seconds: number | null, spread: number | null = 0.2, against: number | null = null) => ({
  seconds,
  spread,
  reference: against,
});
const equal = ['a', 'b', 'c', 'd'].map((id) => stepAudit(id));
const events = (stepId: string, more: Partial<StepSafety>): SafetyFacts => ({
  ...noEvents,
  steps: [{ stepId, seriousUnreviewed: 0, seriousLast100: 0, casesSinceLatest: null, kinds: [], ...more }],
});
const clear = [
  stepAudit('a', { first: first(0.9, 0.1) }),
  stepAudit('b', { first: first(0.1, 0.4) }),
  stepAudit('c'),
  stepAudit('d'),
];

describe('safety first', () => {
  it('suggests the step with a serious event not yet reviewed, whatever else stands out and however short the record', () => {
    const few = { enough: { enough: false, cases: 9, lists: 2, moreCases: 11, moreLists: 2 } };
    const result = suggestionOf(
      audit(clear, few),
      events('c', { seriousUnreviewed: 1, seriousLast100: 1, casesSinceLatest: 3, kinds: [] }),
    );
    expect(result).toMatchObject({ kind: 'safety', steps: ['c'], view: 'safety', also: [] });
    expect(result.said).toEqual(['C: 1 serious event waits for review.']);
  });

  it('suggests the step with two reviewed serious events in the last 100 answered cases; one alone is no safety goal', () => {
    expect(suggestionOf(audit(equal), events('b', { seriousLast100: 2, casesSinceLatest: 50, kinds: [] })).kind).toBe(
      'safety',
    );
    expect(suggestionOf(audit(equal), events('b', { seriousLast100: 1, casesSinceLatest: 50, kinds: [] })).kind).toBe(
      'nothing',
    );
  });

  it('takes the step with most events, then the most recent one', () => {
    const step = (stepId: string, seriousUnreviewed: number, casesSinceLatest: number) => ({
      stepId,
      seriousUnreviewed,
      seriousLast100: 0,
      casesSinceLatest,
      kinds: [],
    });
    const of = (...steps: StepSafety[]) => suggestionOf(audit(equal), { ...noEvents, steps }).steps;
    expect(of(step('a', 1, 2), step('b', 2, 30))).toEqual(['b']);
    expect(of(step('a', 1, 30), step('b', 1, 2))).toEqual(['b']);
  });

  it('speaks when the monitor has signalled, and for an event tied to no step', () => {
    expect(suggestionOf(audit(clear), { ...noEvents, monitorSignalled: true })).toMatchObject({
      kind: 'safety',
      steps: [],
    });
    const tied = { ...events('d', { seriousLast100: 1, casesSinceLatest: 4, kinds: [] }), monitorSignalled: true };
    expect(suggestionOf(audit(clear), tied).steps).toEqual(['d']);
    expect(suggestionOf(audit(clear), { ...noEvents, unreviewedElsewhere: 1 }).said).toEqual([
      '1 serious event tied to no timed step waits for review.',
    ]);
  });

  it('does not suggest a step for 40 cases after an event or near miss, and says so', () => {
    const soon = suggestionOf(audit(clear), events('a', { casesSinceLatest: 12, kinds: ['torn bag'] }));
    expect(soon.kind).toBe('held-back');
    const { head, lede, sentences } = suggestionWords(audit(clear), soon);
    expect(head).toBe('No step is suggested for time: an event was recorded at A (torn bag), 12 cases ago.');
    expect(lede).toEqual([
      '28 more cases will have to pass. A goal on checkpoints, or on another step, is open to you.',
    ]);
    expect([head, ...sentences].join(' ')).not.toMatch(/stands out|vary about as much/);
    expect(suggestionOf(audit(clear), events('a', { casesSinceLatest: 40 }))).toMatchObject({
      kind: 'time',
      steps: ['a'],
    });
    expect(suggestionOf(audit(clear), events('b', { casesSinceLatest: 3 }))).toMatchObject({
      kind: 'time',
      steps: ['a'],
    });
  });

  it('says under the suggestion which step that stands out is held back, not among its reasons alone', () => {
    const steps = [
      stepAudit('a', { first: first(0.9, 0.1) }),
      stepAudit('b', { first: first(0.1, 0.9) }),
      stepAudit('c'),
    ];
    const suggestion = suggestionOf(audit(steps), events('a', { casesSinceLatest: 0 }));
    expect(suggestion).toMatchObject({ kind: 'steadiness', steps: ['b'] });
    expect(suggestionWords(audit(steps), suggestion).lede.at(-1)).toBe(
      'A is not suggested for time: an event was recorded at A, in the latest case. 40 more cases will have to pass.',
    );
  });
});

describe('not enough, waiting, nothing', () => {
  it('says how many more cases and lists are needed', () => {
    const enough = { enough: false, cases: 9, lists: 2, moreCases: 11, moreLists: 2 };
    const result = suggestionOf(audit(clear, { enough }), noEvents);
    expect(result).toMatchObject({ kind: 'not-enough', steps: [], view: null });
    expect(result.said).toEqual(['9 cases count; 11 more cases and 2 more lists will do for a suggestion.']);
  });

  it('gives waiting to the team when it exceeds the largest difference, with at least ten cases behind it', () => {
    const waiting = { perCase: 41, reason: 'lens loading', n: 30 };
    const result = suggestionOf(audit(clear, { waiting }), noEvents);
    expect(result).toMatchObject({ kind: 'waiting', steps: [], also: [{ stepId: 'a', view: 'seconds' }] });
    expect(result.said[0]).toBe(
      'Waiting takes 41\u00A0s a case, most of it lens loading: more than the difference between median and 20th percentile at any step.',
    );
    expect(suggestionOf(audit(clear, { waiting: { ...waiting, n: 9 } }), noEvents).kind).toBe('time');
    expect(suggestionOf(audit(clear, { waiting: { ...waiting, perCase: 11 } }), noEvents).kind).toBe('time');
  });

  it('says that nothing stands out, with the shares it rests on', () => {
    const result = suggestionOf(audit(equal), noEvents);
    expect(result).toMatchObject({ kind: 'nothing', steps: [], also: [] });
    expect(result.said).toEqual([
      'By seconds no step came first often enough: A in 25 of 100 resamples.',
      'By spread no step came first often enough: A in 25 of 100 resamples.',
    ]);
  });

  it('asks for more certainty with fewer than 40 cases, fewer than 8 lists, or lists not known', () => {
    const steps = [
      stepAudit('a', { first: first(0.7) }),
      stepAudit('b', { first: first(0.1) }),
      stepAudit('c', { first: first(0.1) }),
    ];
    const kind = (more: Parameters<typeof audit>[1]) => suggestionOf(audit(steps, more), noEvents).kind;
    expect(kind({})).toBe('time');
    expect(kind({ caseIds: Array.from({ length: 39 }, (_, index) => `case-${index}`) })).toBe('nothing');
    expect(kind({ listCount: 7 })).toBe('nothing');
    expect(kind({ listCount: null, listsFrom: 'blocks' })).toBe('nothing');
  });

  it('answers an empty record', () => {
    const enough = { enough: false, cases: 0, lists: null, moreCases: 30, moreLists: 0 };
    expect(suggestionOf(audit([], { caseIds: [], enough }), noEvents).kind).toBe('not-enough');
  });
});

describe('candidates', () => {
  it('suggests the seconds candidate with its numbers when it alone stands out', () => {
    const result = suggestionOf(audit(clear), noEvents);
    expect(result).toMatchObject({ kind: 'time', steps: ['a'], view: 'seconds', also: [] });
    expect(result.said).toEqual([
      'A has the most seconds between median and 20th percentile: 12\u00A0s a case (8\u00A0s to 16\u00A0s).',
      'It came first in 90 of 100 resamples of your lists.',
    ]);
  });

  it('puts the reference candidate before the seconds candidate, which stays worth a look', () => {
    const steps = [
      stepAudit('a', { first: first(0.95, 0.1, 0.02), reference: reference(1.2) }),
      stepAudit('b', { first: first(0.02, 0.1, 0.97), reference: reference(3) }),
      stepAudit('c', { first: first(0.03, 0.1, 0.01), reference: reference(1.1) }),
    ];
    const result = suggestionOf(audit(steps), noEvents);
    expect(result).toMatchObject({
      kind: 'time',
      steps: ['b'],
      view: 'reference',
      also: [{ stepId: 'a', view: 'seconds' }],
    });
    expect(result.said[0]).toBe(
      'B takes about 3 times as long as in the reference set (2.5 to 3.4; 24 cases of 2 other surgeons).',
    );
  });

  it('takes no notice of the reference set where the step does not clearly take longer than it', () => {
    const steps = [
      stepAudit('a', { first: first(0.4, 0.1, 0.9), reference: reference(1.1) }),
      stepAudit('b', { first: first(0.3, 0.1, 0.1), reference: reference(1) }),
    ];
    expect(suggestionOf(audit(steps), noEvents).kind).toBe('nothing');
  });

  it('prefers the step that is first on one view and level on another; the most certain view names it', () => {
    const steps = [
      stepAudit('a', { first: first(0.7, 0.1) }),
      stepAudit('b', { first: first(0.25, 0.9) }),
      stepAudit('c', { first: first(0.05, 0) }),
    ];
    const result = suggestionOf(audit(steps), noEvents);
    expect(result).toMatchObject({
      kind: 'steadiness',
      steps: ['b'],
      view: 'spread',
      also: [{ stepId: 'a', view: 'seconds' }],
    });
    expect(result.said).toContain('By seconds B came first in 25 of 100.');
  });

  it('never says of a step taken for its second view that it holds the most on the first', () => {
    const steps = [
      stepAudit('a', { first: first(0.6, 0.05) }),
      stepAudit('b', { first: first(0.26, 0.3) }),
      stepAudit('c', { first: first(0.14, 0.3) }),
    ];
    const record = audit(steps, { caseIds: Array.from({ length: 24 }, (_, at) => `case-${at + 1}`) });
    const result = suggestionOf(record, noEvents);
    expect(result).toMatchObject({
      kind: 'time',
      steps: ['b'],
      view: 'seconds',
      level: { with: ['a'], second: 'spread' },
      also: [{ stepId: 'a', view: 'seconds' }],
    });
    expect(result.said[0]).toBe('B has 12\u00A0s a case between median and 20th percentile (8\u00A0s to 16\u00A0s).');
    const said = suggestionWords(record, result).sentences.join(' ');
    expect(said).toContain(
      'On most seconds it cannot be told apart from A (first in 26 and 60 of 100 resamples of your record); on what varies most it came first in 30.',
    );
    expect(said).toContain('Also worth a look: A, which cannot be told apart from it on most seconds.');
    expect(said).not.toContain('holds the most');
  });

  it('breaks a tie between two such steps by the larger difference', () => {
    const steps = [
      stepAudit('a', { first: first(0.9, 0.25), difference: 10 }),
      stepAudit('b', { first: first(0.05, 0.7, 0.9), difference: 30, reference: reference(2) }),
      stepAudit('c', { first: first(0.05, 0.05, 0.1), reference: reference(1) }),
    ];
    expect(suggestionOf(audit(steps), noEvents)).toMatchObject({ steps: ['b'], view: 'reference', kind: 'time' });
  });

  it('says when two steps are level and leaves the choice', () => {
    const steps = [
      stepAudit('a', { first: first(0.48, 0.1) }),
      stepAudit('b', { first: first(0.41, 0.1) }),
      stepAudit('c', { first: first(0.11, 0.1) }),
    ];
    const result = suggestionOf(audit(steps), noEvents);
    expect(result).toMatchObject({ kind: 'level', steps: ['a', 'b'], view: 'seconds' });
    expect(result.said[0]).toBe('A has 12\u00A0s a case between median and 20th percentile (8\u00A0s to 16\u00A0s).');
    expect(result.said[3]).toBe('It came first in 41 of 100 resamples of your lists.');
    const wide = [0.35, 0.3, 0.35].map((share, place) =>
      stepAudit(['a', 'b', 'c'][place]!, { first: first(share, 0.1) }),
    );
    expect(suggestionOf(audit(wide), noEvents)).toMatchObject({ kind: 'level', steps: ['a', 'c', 'b'] });
  });

  it('suggests steadiness when only spread stands out', () => {
    const steps = [stepAudit('a', { first: first(0.1, 0.9) }), stepAudit('b'), stepAudit('c')];
    expect(suggestionOf(audit(steps), noEvents)).toMatchObject({ kind: 'steadiness', steps: ['a'], view: 'spread' });
  });
});

describe('steps not to shorten', () => {
  it('are never suggested for time, whatever they stand out on', () => {
    const kept = { notToShorten: true };
    const alone = suggestionOf(
      audit([stepAudit('wound', { ...kept, first: first(null, 0.9) }), stepAudit('b'), stepAudit('c')]),
      noEvents,
    );
    expect(alone).toMatchObject({ kind: 'kept', steps: ['wound'], view: 'spread' });
    const beside = suggestionOf(
      audit([
        stepAudit('wound', { ...kept, first: first(null, 0.9) }),
        stepAudit('b', { first: first(0.9, 0.05) }),
        stepAudit('c'),
      ]),
      noEvents,
    );
    expect(beside).toMatchObject({ kind: 'time', steps: ['b'], also: [{ stepId: 'wound', view: 'spread' }] });
    const level = suggestionOf(
      audit([
        stepAudit('wound', { ...kept, first: first(null, 0.5) }),
        stepAudit('b', { first: first(0.1, 0.45) }),
        stepAudit('c', { first: first(0.1, 0.05) }),
      ]),
      noEvents,
    );
    expect(level).toMatchObject({ kind: 'steadiness', steps: ['b'] });
  });
});
