import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { auditInSlices, auditOf, type Audit, type AuditInput } from '../../../src/lib/audit';
import { Cancelled } from '../../../src/lib/turns';
import type { Case, Stretch } from '../../../src/lib/model';
import { case_, fact, length, listRecord, procedure, step } from '../../made-up/cases';
import { nineEqualSteps, plainProcedure, recordOf, referenceOf, type World } from '../../bench/simulated-record';

const input = (cases: readonly Case[], more: Partial<AuditInput> = {}): AuditInput => ({
  cases,
  lists: [],
  procedure: plainProcedure(9),
  references: [],
  seed: 1,
  resamples: 200,
  ...more,
});

/** Every number in the audit must be one: NaN and Infinity would reach a screen. */
function numbersIn(value: unknown, at = 'audit'): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${at}: ${value}`];
  if (value === undefined) return [`${at}: undefined`];
  if (value && typeof value === 'object' && !at.endsWith('.procedure'))
    return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, `${at}.${key}`));
  return [];
}

const stepNamed = (audit: Audit, stepId: string) => audit.steps.find((each) => each.stepId === stepId)!;

describe('an audit', () => {
  it('finds the step with most seconds, the one that varies most, and the one longest against the reference set', () => {
    const world: World = {
      ...nineEqualSteps(100),
      usual: [60, 300, 60, 60, 60, 60, 60, 60, 60],
      logSd: [0.45, 0.22, 0.22, 0.22, 0.22, 0.22, 0.22, 0.22, 0.22],
    };
    const reference = referenceOf({ ...nineEqualSteps(30), usual: [60, 300, 30, 60, 60, 60, 60, 60, 60] }, 2);
    const audit = auditOf(input(recordOf(world, 5), { references: [reference], resamples: 500 }));
    expect(stepNamed(audit, 's2').first.seconds).toBeGreaterThan(0.9);
    expect(stepNamed(audit, 's1').first.spread).toBeGreaterThan(0.9);
    expect(stepNamed(audit, 's3').first.reference).toBeGreaterThan(0.9);
    expect(stepNamed(audit, 's3').reference?.ratio).toBeCloseTo(2, 0);
    for (const { difference, differenceInterval, spread, spreadInterval, share, dots, twoThirds } of audit.steps) {
      expect(differenceInterval!.low).toBeLessThanOrEqual(difference!);
      expect(differenceInterval!.high).toBeGreaterThanOrEqual(difference!);
      expect(spreadInterval!.low).toBeLessThanOrEqual(spread!);
      expect(spreadInterval!.high).toBeGreaterThanOrEqual(spread!);
      const inside = dots.filter(({ seconds }) => seconds >= twoThirds!.low && seconds <= twoThirds!.high).length;
      expect(Math.abs(inside / dots.length - 2 / 3)).toBeLessThan(0.02);
      expect(share).toBeGreaterThan(0.05);
    }
    expect(audit.steps.reduce((sum, { share }) => sum + (share ?? 0), 0)).toBeCloseTo(1, 9);
    expect(audit.steps.reduce((sum, { first }) => sum + (first.seconds ?? 0), 0)).toBeCloseTo(1, 9);
    expect(numbersIn(audit)).toEqual([]);
  });

  it('shows the latest 100, in order of time, with the recorded seconds at each dot', () => {
    const audit = auditOf(input(recordOf(nineEqualSteps(140), 2)));
    expect(audit.caseIds[0]).toBe('case-41');
    expect(audit.caseIds).toHaveLength(100);
    expect(audit.steps[0]?.dots[0]).toMatchObject({ caseId: 'case-41', code: 'C41' });
    expect(auditOf(input(recordOf(nineEqualSteps(140), 2), { shown: 30 })).caseIds).toHaveLength(30);
  });

  it('gives the same numbers for the same seed whatever the order the cases come in, and others for another seed', () => {
    const cases = recordOf(nineEqualSteps(60), 4);
    const audit = auditOf(input(cases));
    expect(auditOf(input([...cases].reverse()))).toEqual(audit);
    expect(auditOf(input(cases, { seed: 2 })).steps[0]?.differenceInterval).not.toEqual(
      audit.steps[0]?.differenceInterval,
    );
  });

  it('is the same in slices, with progress that only rises, and can be cancelled', async () => {
    const facts = procedure(plainProcedure(9).steps, [fact('toric', 'yes-no')]);
    const cases = recordOf(nineEqualSteps(70), 4).map((each, place) => ({
      ...each,
      facts: { toric: place % 3 === 0 },
    }));
    const given = input(cases, { procedure: facts, references: [referenceOf(nineEqualSteps(24), 3)], resamples: 300 });
    const shares: number[] = [];
    const sliced = await auditInSlices(given, {
      pause: () => Promise.resolve(),
      progress: (share) => shares.push(share),
    });
    expect(sliced).toEqual(auditOf(given));
    expect(shares.length).toBeGreaterThan(20);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    expect(shares.every((share) => share > 0 && share <= 1)).toBe(true);
    let turns = 0;
    await expect(
      auditInSlices(given, { pause: () => Promise.resolve(), cancelled: () => (turns += 1) > 3 }),
    ).rejects.toBeInstanceOf(Cancelled);
    expect(turns).toBe(4);
  });

  it('does not rank a step not to be shortened by seconds, nor a short or optional one by spread', () => {
    const nine = plainProcedure(9);
    const steps = nine.steps.map((each, place) => ({ ...each, notToShorten: place === 8, optional: place === 0 }));
    const audit = auditOf(
      input(recordOf({ ...nineEqualSteps(60), usual: [60, 5, 60, 60, 60, 60, 60, 60, 60] }, 3), {
        procedure: { ...nine, steps },
      }),
    );
    expect(stepNamed(audit, 's9').first).toEqual({ seconds: null, spread: expect.any(Number), reference: null });
    expect(stepNamed(audit, 's1').first.spread).toBeNull();
    expect(stepNamed(audit, 's2').first.spread).toBeNull();
  });

  it('counts waiting, and the cases a step was returned to, with the commonest reason', () => {
    const waiting = (seconds: number, reason: string): Stretch => length('s1', seconds, { kind: 'waiting', reason });
    const cases = recordOf(nineEqualSteps(30), 3).map((each, place) => ({
      ...each,
      returnsNoted: { s2: place % 3 === 0 ? 1 : 0 },
      stretches: [...each.stretches, ...(place % 2 ? [waiting(8, 'machine')] : [waiting(20, 'lens-loading')])],
    }));
    const audit = auditOf(input(cases));
    expect(stepNamed(audit, 's1').waitingPerCase).toBe(14);
    expect(stepNamed(audit, 's1').waitingReason).toBe('lens loading');
    expect(stepNamed(audit, 's2')).toMatchObject({ waitingPerCase: 0, waitingReason: null });
    expect(stepNamed(audit, 's2').returnedTo).toEqual({ cases: 10, of: 30, perCase: 1 / 3 });
    expect(audit.waiting).toEqual({ perCase: 14, reason: 'lens loading', n: 30 });
  });

  it('sees a step that became shorter over time, from list means of the latest 400', () => {
    const falling = recordOf(nineEqualSteps(500), 3).map((each, place) => ({
      ...each,
      stretches: each.stretches.map((one) =>
        one.stepId === 's3' ? { ...one, seconds: one.seconds * 0.99 ** (place / 4) } : one,
      ),
    }));
    const audit = auditOf(input(falling));
    const trend = stepNamed(audit, 's3').overTime!;
    expect(trend.ratio).toBeCloseTo(0.99 ** 5, 2);
    expect(trend.high).toBeLessThan(1);
    const still = stepNamed(audit, 's4').overTime!;
    expect(still.low).toBeLessThan(1.01);
    expect(still.high).toBeGreaterThan(0.99);
  });
});

describe('the reference set', () => {
  const mine = recordOf(nineEqualSteps(40), 3);
  const of = (cases: number, readers = 1) =>
    auditOf(input(mine, { references: [referenceOf(nineEqualSteps(cases), 3, readers)] })).steps[0]!.reference;

  it('needs ten cases from three lists or readers', () => {
    expect(of(9)).toBeNull();
    expect(of(10)).toBeNull();
    expect(of(11)).toMatchObject({ n: 11, readers: 1 });
    expect(of(12, 3)).toMatchObject({ n: 12, readers: 3 });
  });

  it('takes differences between readers out of the spread', () => {
    const set = referenceOf({ ...nineEqualSteps(60), caseSd: 0, listSd: 0, outliers: 0 }, 3, 2);
    const apart = {
      ...set,
      cases: set.cases.map((each) => ({
        ...each,
        stepSeconds: Object.fromEntries(
          Object.entries(each.stepSeconds).map(([id, seconds]) => [id, each.reader === 'R1' ? 3 * seconds : seconds]),
        ),
      })),
    };
    const audit = auditOf(
      input(recordOf({ ...nineEqualSteps(60), caseSd: 0, listSd: 0, outliers: 0 }, 9), { references: [apart] }),
    );
    for (const { reference } of audit.steps)
      expect(Math.abs(Math.log(reference!.spreadRatio!.ratio))).toBeLessThan(0.12);
  });

  it('is read without lists, by the parts of a merged step, and with the eye taken out by the own coefficients', () => {
    const nucleus = fact('nucleus', 'choice', ['medium', 'hard']);
    const merging = procedure([step('s1', { mergeOf: ['p', 'q'] }), step('p'), step('q'), step('s2')], [nucleus]);
    const world = (hard: number): World => ({
      cases: 60,
      usual: [60, 60],
      eye: (stream) => {
        const is = stream.uniform() < hard;
        return { facts: { nucleus: is ? 'hard' : 'medium' }, effect: (place) => (is && place === 0 ? Math.log(2) : 0) };
      },
    });
    const set = referenceOf(world(0.9), 3);
    const parts = set.cases.map((each) => ({
      ...each,
      list: null,
      stepSeconds: { p: each.stepSeconds['s1']! / 2, q: each.stepSeconds['s1']! / 2 },
    }));
    const audit = auditOf(
      input(recordOf(world(0.3), 8), { procedure: merging, references: [{ ...set, cases: parts }] }),
    );
    expect(stepNamed(audit, 's1').reference?.n).toBe(60);
    expect(stepNamed(audit, 's1').reference?.ratio).toBeCloseTo(1, 0);
    expect(Math.abs(Math.log(stepNamed(audit, 's1').reference!.ratio))).toBeLessThan(0.25);
    expect(stepNamed(audit, 's2').reference).toBeNull();
  });

  it('of another procedure is not read', () => {
    const other = { ...referenceOf(nineEqualSteps(40), 3), procedureId: 'another' };
    expect(auditOf(input(mine, { references: [other] })).steps[0]?.reference).toBeNull();
  });
});

describe('records at the edge', () => {
  const sound = (audit: Audit) => expect(numbersIn(audit)).toEqual([]);
  const one = (stretches: readonly Stretch[], count: number, more: Partial<Case> = {}) =>
    Array.from({ length: count }, (_, place) => case_(place + 1, stretches, more));

  it('empty: says why nothing can be said', () => {
    const audit = auditOf(input([]));
    sound(audit);
    expect(audit.cannot).toEqual({ code: 'no-cases' });
    expect(audit.enough).toEqual({ enough: false, cases: 0, lists: 0, moreCases: 20, moreLists: 4 });
    expect(audit.steps[0]).toMatchObject({
      n: 0,
      median: null,
      difference: null,
      differenceInterval: null,
      spread: null,
      share: null,
      first: { seconds: null, spread: null, reference: null },
    });
  });

  it('one case, and twelve', () => {
    const single = auditOf(input(recordOf(nineEqualSteps(1), 2)));
    sound(single);
    expect(single.steps[0]).toMatchObject({
      n: 1,
      p20: null,
      difference: null,
      differenceInterval: null,
      differenceCannot: { code: 'too-few-cases', cases: 1, needed: 5 },
      spread: null,
    });
    const twelve = auditOf(input(recordOf(nineEqualSteps(12), 2)));
    sound(twelve);
    expect(twelve.enough).toEqual({ enough: false, cases: 12, lists: 3, moreCases: 8, moreLists: 1 });
    expect(twelve.caveats.at(-1)).toEqual({ code: 'single-cases', listsKnown: true });
  });

  it('lists not known: eight neighbours are one list, and thirty cases are needed', () => {
    const cases = recordOf(nineEqualSteps(29), 2).map((each) => ({ ...each, listId: null }));
    const audit = auditOf(input(cases));
    sound(audit);
    expect(audit).toMatchObject({
      listCount: null,
      listsFrom: 'blocks',
      enough: { enough: false, cases: 29, lists: null, moreCases: 1, moreLists: 0 },
    });
  });

  it('order not known: nothing over time', () => {
    const audit = auditOf(input(recordOf(nineEqualSteps(80), 2).map((each) => ({ ...each, orderKnown: false }))));
    sound(audit);
    expect(audit.orderKnown).toBe(false);
    expect(audit.steps.every(({ overTime }) => overTime === null)).toBe(true);
    expect(audit.lookedAt.flatMap(({ labels }) => labels).some((label) => label.includes('latest of these'))).toBe(
      false,
    );
  });

  it('one list only, and lists of one case', () => {
    const oneList = auditOf(input(recordOf({ ...nineEqualSteps(40), listSize: 40 }, 2)));
    sound(oneList);
    expect(oneList.enough).toMatchObject({ enough: false, lists: 1, moreLists: 3 });
    const ones = auditOf(input(recordOf({ ...nineEqualSteps(40), listSize: 1 }, 2)));
    sound(ones);
    expect(ones.enough.enough).toBe(true);
    expect(ones.steps[0]?.differenceInterval).not.toBeNull();
  });

  it('constant times: no spread, no rank by spread', () => {
    const audit = auditOf(input(one([length('s1', 60), length('s2', 30)], 40)));
    sound(audit);
    expect(audit.steps[0]).toMatchObject({
      median: 60,
      p20: 60,
      difference: null,
      differenceInterval: null,
      differenceCannot: { code: 'all-equal' },
      first: { seconds: null },
      spread: null,
      spreadInterval: null,
    });
    expect(audit.steps[0]?.first.spread).toBeNull();
  });

  it('whole seconds on a short step: a spread by other means, said without an interval', () => {
    const cases = Array.from({ length: 40 }, (_, place) =>
      case_(place + 1, [length('s1', place % 4 === 0 ? 6 : 5), length('s2', 30 + place)]),
    );
    const audit = auditOf(input(cases));
    sound(audit);
    expect(stepNamed(audit, 's1').spread).toBeGreaterThan(1);
    expect(stepNamed(audit, 's1').spreadInterval).toBeNull();
  });

  it('whole seconds on a short step: no difference of "0 s, 0 to 0", but why none can be said', () => {
    const short = (unit: number) =>
      Array.from({ length: 40 }, (_, place) =>
        case_(place + 1, [length('s1', (place % 4 === 0 ? 6 : 5) * unit), length('s2', 30 + place)]),
      );
    const coarse = stepNamed(auditOf(input(short(1))), 's1');
    expect(coarse).toMatchObject({
      difference: null,
      differenceInterval: null,
      differenceCannot: { code: 'whole-seconds' },
      first: { seconds: null },
    });
    // The same times in tenths are fine enough, however small the difference.
    expect(stepNamed(auditOf(input(short(1.1))), 's1')).toMatchObject({ differenceCannot: null });
    expect(stepNamed(auditOf(input(short(1))), 's2')).toMatchObject({ differenceCannot: null });
  });

  it('two to four cases: neither a fifth of them nor a difference, and why', () => {
    for (const count of [2, 3, 4]) {
      const [first] = auditOf(input(recordOf(nineEqualSteps(count), 2))).steps;
      expect(first).toMatchObject({ n: count, p20: null, difference: null });
      expect(first?.median).not.toBeNull();
      expect(first?.differenceCannot).toEqual({ code: 'too-few-cases', cases: count, needed: 5 });
    }
    const five = auditOf(input(recordOf(nineEqualSteps(5), 2))).steps[0];
    expect(five?.differenceCannot).toBeNull();
    expect(five?.differenceInterval).not.toBeNull();
  });

  const takenOver: Case['hands'] = { whole: 'mine', steps: { s1: 'taken-over' } };

  it('steps missing in some cases and hands shared: absent, counted in n', () => {
    const cases = recordOf({ ...nineEqualSteps(60), missing: 0.3 }, 2).map((each, place) => ({
      ...each,
      hands: place % 2 ? takenOver : each.hands,
    }));
    const audit = auditOf(input(cases));
    sound(audit);
    expect(stepNamed(audit, 's1').n).toBeLessThan(30);
    expect(stepNamed(audit, 's2').n).toBeLessThan(60);
    expect(stepNamed(audit, 's2').n).toBeGreaterThan(30);
  });

  it('a step done in one case only, an extreme outlier, a time of a tenth of a second', () => {
    const cases = recordOf(nineEqualSteps(40), 2);
    const odd = cases.map((each, place) =>
      place === 7
        ? { ...each, stretches: [...each.stretches.slice(1), length('s1', 7200), length('extra', 0.1)] }
        : each,
    );
    const audit = auditOf(input(odd, { procedure: procedure([...plainProcedure(9).steps, step('extra')]) }));
    sound(audit);
    expect(stepNamed(audit, 'extra')).toMatchObject({
      n: 1,
      median: 0.1,
      differenceInterval: null,
      first: { seconds: null },
    });
    expect(stepNamed(audit, 's1').median).toBeLessThan(80);
  });

  it('five thousand cases', () => {
    const audit = auditOf(input(recordOf(nineEqualSteps(5000), 2), { shown: 5000, resamples: 50 }));
    sound(audit);
    expect(audit.caseIds).toHaveLength(5000);
    expect(audit.listCount).toBe(1000);
  });

  it('anything valid: a defined answer without NaN and without a throw', () => {
    const stretch_ = fc.record({
      stepId: fc.constantFrom('s1', 's2', 's3', null),
      seconds: fc.oneof(fc.constantFrom(5, 6), fc.double({ min: 0.1, max: 7200, noNaN: true })),
      start: fc.option(fc.double({ min: 0, max: 3000, noNaN: true }), { nil: null }),
      kind: fc.constantFrom('step', 'step', 'step', 'waiting', 'protected'),
      reason: fc.constantFrom('machine', 'pause', null),
    });
    const someCase = fc.record({
      stretches: fc.array(stretch_, { maxLength: 6 }),
      list: fc.option(fc.nat(6), { nil: null }),
      whole: fc.constantFrom('mine', 'mine', 'mine', 'shared', 'taken-over'),
      toric: fc.constantFrom(true, false, 'odd', null),
      orderKnown: fc.constantFrom(true, true, false),
    });
    const withFact = procedure(
      [step('s1', { mergeOf: ['s2', 's3'] }), step('s2', { earlier: ['s1'] }), step('s3', { earlier: ['s2'] })],
      [fact('toric', 'yes-no')],
    );
    fc.assert(
      fc.property(fc.array(someCase, { maxLength: 45 }), (given) => {
        const cases = given.map(({ stretches, list, whole, toric, orderKnown }, place) =>
          case_(
            place + 1,
            stretches
              .filter(({ stepId, kind }) => stepId !== null || kind === 'waiting')
              .map((each) => ({ ...each, end: each.start === null ? null : each.start + each.seconds })),
            {
              listId: list === null ? null : `list-${list}`,
              hands: { whole, steps: {} },
              facts: toric === null ? {} : { toric },
              orderKnown,
            },
          ),
        );
        sound(
          auditOf(
            input(cases, {
              procedure: withFact,
              resamples: 20,
              lists: [listRecord(1, { teaching: true }), listRecord(2)],
            }),
          ),
        );
      }),
      { numRuns: 150, seed: 7 },
    );
  });
});
