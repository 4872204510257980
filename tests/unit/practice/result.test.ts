import { describe, expect, it } from 'vitest';
import { outcomeSchema, type Case } from '../../../src/lib/model';
import { lastingFor, resultFor, type ResultInput } from '../../../src/lib/practice';
import { listRecord } from '../../made-up/cases';
import { listsFor, month, operation } from '../../made-up/month';
import { aTear } from '../../made-up/plain';
import { goalOn } from '../../made-up/goal-on';

const ids = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, at) => `case-${from + at}`);

function asked(cases: readonly Case[], over: Partial<ResultInput> = {}): ResultInput {
  const start = goalOn(cases, { stepId: over.stepId ?? 'practised', measure: over.measure ?? 'time' });
  return {
    cases,
    lists: listsFor(cases),
    procedure: operation,
    baseline: start.baseline,
    windowIds: ids(41, 60),
    stepId: 'practised',
    measure: 'time',
    look: 'first',
    seed: 1,
    ...over,
  };
}

const fifth = Math.log(0.8);
const shorter = month(60, { change: fifth });
const edited = (cases: readonly Case[], at: number, over: Partial<Case>) =>
  cases.map((one, index) => (index === at ? { ...one, ...over } : one));
const serious = aTear('practised');
const reviewed = { at: '2026-06-03T10:00:00Z', text: 'Looked at with a senior colleague.' };

describe('the result of a window', () => {
  it('shorter, when the step alone became a fifth shorter; near the truth, and of the stored shape', () => {
    const outcome = resultFor(asked(shorter));
    expect(outcomeSchema.parse(outcome)).toEqual(outcome);
    expect(outcome).toMatchObject({
      kind: 'shorter',
      measure: 'time',
      paused: [],
      cannot: null,
      leftOutSeen: 0,
      kindWithLeftOut: null,
    });
    expect(Math.abs(outcome.against!.estimate - fifth)).toBeLessThan(2.5 * outcome.against!.se);
    expect(outcome.against).toMatchObject({ nBaseline: 40, nWindow: 20 });
    expect(outcome.baselineMedian).toBeGreaterThan(30);
    expect(outcome.powerForAFifth).toBeGreaterThan(0.5);
  });

  it('not shorter when every step became a fifth shorter, or only the rest took longer', () => {
    expect(resultFor(asked(month(60, { change: fifth, rest: fifth }))).kind).toBe('all-round');
    expect(resultFor(asked(month(60, { rest: Math.log(1.25) }))).kind).toBe('rest-longer');
  });

  it('longer, little change', () => {
    expect(resultFor(asked(month(60, { change: -fifth }))).kind).toBe('longer');
    expect(resultFor(asked(month(60, { sd: 0.1 }))).kind).toMatch(/little-change|cannot-tell/);
  });

  it('is the same twice, and whatever the order of the record', () => {
    expect(resultFor(asked(shorter))).toEqual(resultFor(asked(shorter)));
    expect(resultFor({ ...asked(shorter), cases: [...shorter].reverse() })).toEqual(resultFor(asked(shorter)));
  });

  it('adds the allowance to the effect and not to the rest', () => {
    const input = asked(shorter);
    const outcome = resultFor({ ...input, baseline: { ...input.baseline, selectionAllowance: 0.05 } });
    expect(outcome.against!.estimate - outcome.against!.rawEstimate).toBeCloseTo(0.05, 12);
    expect(outcome.plain!.high - outcome.plain!.rawHigh).toBeCloseTo(0.05, 12);
    expect(outcome.rest!.estimate).toBe(outcome.rest!.rawEstimate);
  });

  it('says how long the window was known to have lists, and who else had hands in it', () => {
    expect(resultFor(asked(month(60, { change: fifth, lists: false }))).notes).toContain('lists-unknown');
    const shared = edited(shorter, 50, { hands: { whole: 'mine', steps: { first: 'shared' } } });
    expect(resultFor(asked(shared)).notes).toContain('shared-hands');
    expect(resultFor(asked(shorter, { look: 'second' })).notes).toContain('second-look');
  });

  it('beside shorter: experience within the first 300, unless more came before', () => {
    expect(resultFor(asked(shorter)).notes).toContain('experience');
    expect(resultFor(asked(shorter, { casesBefore: 240 })).notes).toContain('experience');
    expect(resultFor(asked(shorter, { casesBefore: 241 })).notes).not.toContain('experience');
    expect(resultFor(asked(shorter, { inTraining: false })).notes).not.toContain('experience');
    expect(resultFor(asked(month(60))).notes).not.toContain('experience');
  });

  it('beside shorter: as it was already doing, and what going on would have given', () => {
    const learning = month(60, { sd: 0.08 }).map((one, at) => ({
      ...one,
      stretches: one.stretches.map((each) =>
        each.stepId === 'practised' ? { ...each, seconds: each.seconds * Math.exp(-0.01 * at) } : each,
      ),
    }));
    const outcome = resultFor(asked(learning));
    expect(outcome).toMatchObject({ kind: 'shorter' });
    expect(outcome.notes).toContain('prior-trend');
    // 1 % a case, 30 cases from the middle of the start to the middle of the window.
    expect(outcome.priorTrend).toBeLessThan(-0.2);
    expect(outcome.priorTrend).toBeGreaterThan(-0.4);
    expect(resultFor(asked(shorter)).priorTrend).toBeNull();
  });

  it('with cases left out after their times were seen: how many, and the result with them in', () => {
    const leftOut = { reason: 'other', timesSeen: true, at: '2026-06-02T10:00:00Z' } as const;
    const slow = shorter.map((one, at) =>
      at >= 42 && at < 58 && at % 2 === 0
        ? {
            ...one,
            leftOut,
            stretches: one.stretches.map((each) => (each.stepId === 'practised' ? { ...each, seconds: 120 } : each)),
          }
        : one,
    );
    const outcome = resultFor(asked(slow));
    expect(outcome).toMatchObject({ leftOutSeen: 8, kind: 'shorter' });
    expect(outcome.kindWithLeftOut).not.toBe('shorter');
    expect(outcome.notes).toContain('left-out');
    const before = slow.map((one) => (one.leftOut ? { ...one, leftOut: { ...leftOut, timesSeen: false } } : one));
    expect(resultFor(asked(before))).toMatchObject({ leftOutSeen: 0, kindWithLeftOut: null });
  });

  it('says when baseline or window cases are gone', () => {
    expect(resultFor({ ...asked(shorter), cases: shorter.slice(1) }).caveats).toContainEqual({
      code: 'gone-since',
      cases: 1,
    });
  });

  it('nothing where there are no cases at all', () => {
    expect(resultFor({ ...asked(shorter), cases: [] })).toMatchObject({
      kind: 'cannot-tell',
      against: null,
      cannot: { code: 'few-cases' },
    });
    expect(resultFor({ ...asked(shorter), windowIds: [] })).toMatchObject({
      kind: 'cannot-tell',
      cannot: { code: 'few-cases' },
    });
  });
});

describe('steadiness, checkpoints and safety goals', () => {
  const varied = month(80, { sd: 0.35, from: 40 }).map((one, at) => ({
    ...one,
    stretches: one.stretches.map((each) =>
      each.stepId === 'practised' && at >= 40
        ? { ...each, seconds: 40 * Math.exp((Math.log(each.seconds / 40) * 2) / 7) }
        : each.stepId === 'practised'
          ? each
          : { ...each, seconds: 50 * Math.exp(0.1 * Math.sin(each.seconds)) },
    ),
  }));

  it('steadier, with the usual ranges before and now', () => {
    const outcome = resultFor(asked(varied, { measure: 'steadiness', windowIds: ids(41, 80) }));
    expect(outcomeSchema.parse(outcome)).toEqual(outcome);
    expect(outcome.kind).toBe('steadier');
    expect(outcome.spread!.estimate).toBeLessThan(-0.5);
    const width = ([low, high]: [number, number]) => high / low;
    expect(width(outcome.rangeWindow!)).toBeLessThan(width(outcome.rangeBaseline!));
    expect(resultFor(asked(shorter, { measure: 'steadiness' })).kind).toBe('cannot-tell');
  });

  it('a second look asks for more', () => {
    const width = (look: 'first' | 'second') => {
      const { spread } = resultFor(asked(varied, { measure: 'steadiness', windowIds: ids(41, 80), look }));
      return spread!.high - spread!.low;
    };
    expect(width('second')).toBeGreaterThan(width('first'));
  });

  it('no change in time is claimed of a goal on checkpoints or safety', () => {
    const checkpoints = resultFor(asked(shorter, { measure: 'checkpoints' }));
    expect(checkpoints).toMatchObject({
      kind: 'cannot-tell',
      cannot: { code: 'not-a-time-goal', measure: 'checkpoints' },
    });
    expect(resultFor(asked(shorter, { measure: 'safety' }))).toMatchObject({
      kind: 'cannot-tell',
      against: null,
      plain: null,
    });
  });
});

describe('safety before time', () => {
  it('pauses while a serious event of the window is not reviewed; the numbers stay', () => {
    const outcome = resultFor(asked(edited(shorter, 45, { events: [serious] })));
    expect(outcome.kind).toBe('paused');
    expect(outcome.paused).toEqual([
      { code: 'unreviewed', event: 'posterior capsule tear', step: 'Practised', timed: true },
    ]);
    expect(outcome.against).toEqual(resultFor(asked(shorter)).against);
    expect(resultFor(asked(edited(shorter, 45, { events: [{ ...serious, reviewed }] }))).kind).toBe('shorter');
  });

  it('pauses for an event in a case that was left out, and in an operation that was not timed', () => {
    const leftOut = { reason: 'other', timesSeen: false, at: '2026-06-02T10:00:00Z' } as const;
    expect(resultFor(asked(edited(shorter, 45, { events: [serious], leftOut }))).kind).toBe('paused');
    const lists = listsFor(shorter).map((list) =>
      list.id === 'list-10' ? { ...listRecord(10), operated: 7, untimedEvents: [serious] } : list,
    );
    expect(resultFor({ ...asked(shorter), lists }).paused[0]).toMatchObject({ code: 'unreviewed', timed: false });
  });

  it('pauses for two reviewed serious events tied to the step or one after it', () => {
    const two = edited(edited(shorter, 45, { events: [{ ...serious, reviewed }] }), 50, {
      events: [{ ...serious, stepId: 'third', reviewed }],
    });
    expect(resultFor(asked(two)).paused).toMatchObject([
      { code: 'two-serious', count: 2, steps: ['Practised', 'Third'] },
    ]);
    const elsewhere = edited(edited(shorter, 45, { events: [{ ...serious, reviewed }] }), 50, {
      events: [{ ...serious, stepId: 'first', reviewed }],
    });
    expect(resultFor(asked(elsewhere)).kind).toBe('shorter');
  });

  it('pauses where a protected part was seen in two of twenty fewer than at the start', () => {
    const seen = (missing: number) =>
      shorter.map((one, at) => ({ ...one, protectedSeen: { pause: !(at >= 41 && at < 41 + missing) } }));
    expect(resultFor(asked(seen(2), { watch: ['pause'] })).paused[0]).toMatchObject({
      code: 'protected-part',
      start: { seen: 40, looked: 40 },
      window: { seen: 18, looked: 20 },
    });
    expect(resultFor(asked(seen(1), { watch: ['pause'] })).kind).toBe('shorter');
    expect(resultFor(asked(seen(2))).kind).toBe('shorter');
  });

  it('pauses while a signal of the monitor waits for its review', () => {
    const often = shorter.map((one, at) =>
      [36, 37, 38, 39].includes(at)
        ? { ...one, events: [{ ...serious, stepId: 'first', reviewed: at === 39 ? null : reviewed }] }
        : one,
    );
    expect(resultFor(asked(often)).paused).toContainEqual({ code: 'monitor' });
  });
});

describe('did it last, on cases', () => {
  it('follows the windows one by one', () => {
    const cases = month(100, { change: fifth, sd: 0.1 });
    const { baseline } = asked(cases);
    const input = { cases, lists: listsFor(cases), procedure: operation, baseline, stepId: 'practised' };
    const lasting = lastingFor({ ...input, windows: [ids(41, 60), ids(61, 80), ids(81, 100)] });
    expect(lasting.map(({ nth, kind }) => [nth, kind])).toEqual([
      [1, 'lasted'],
      [2, 'lasted'],
    ]);
    expect(lastingFor({ ...input, windows: [ids(41, 60)] })).toEqual([]);
  });
});
