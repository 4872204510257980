import { describe, expect, it } from 'vitest';
import { auditOf, type Audit } from '../../../src/lib/audit';
import type { Case } from '../../../src/lib/model';
import { randomStream } from '../../../src/lib/statistics';
import { case_, fact, length, listRecord, procedure, step, stretch } from '../../made-up/cases';
import { nineEqualSteps, plainProcedure, recordOf, stepIds, type World } from '../../bench/simulated-record';

const audit = (cases: readonly Case[], more: Partial<Parameters<typeof auditOf>[0]> = {}) =>
  auditOf({ cases, lists: [], procedure: plainProcedure(9), references: [], seed: 1, resamples: 1, ...more });

const shown = (found: Audit, stepId: string) =>
  found.patterns.filter((pattern) => pattern.stepId === stepId && pattern.shown);

/** Multiplies one step's time in the cases that have something. */
const longer = (cases: readonly Case[], stepId: string, by: number, when: (place: number) => boolean): Case[] =>
  cases.map((each, place) => ({
    ...each,
    stretches: each.stretches.map((one) =>
      one.stepId === stepId && when(place) ? { ...one, seconds: one.seconds * by } : one,
    ),
  }));

describe('when a step takes longer', () => {
  it('finds the eyes: rare levels taken together with their neighbours, against the commonest', () => {
    const nucleus = fact('nucleus', 'choice', ['soft', 'medium', 'hard', 'very-hard']);
    const level = (place: number) =>
      place % 9 === 0 ? 'hard' : place % 20 === 7 ? 'very-hard' : place % 4 === 1 ? 'soft' : 'medium';
    const cases = longer(recordOf(nineEqualSteps(80), 3), 's3', 1.6, (place) => level(place).includes('hard')).map(
      (each, place) => ({
        ...each,
        facts: { nucleus: level(place) },
      }),
    );
    const found = audit(cases, { procedure: procedure(plainProcedure(9).steps, [nucleus]) });
    const [pattern] = shown(found, 's3');
    expect(pattern).toMatchObject({ kind: 'fact', label: 'nucleus hard or very hard', nWith: 12, earlierStepId: null });
    expect(pattern!.ratio).toBeGreaterThan(1.3);
    expect(pattern!.low).toBeLessThanOrEqual(pattern!.ratio);
    expect(pattern!.high).toBeGreaterThanOrEqual(pattern!.ratio);
    const looked = found.lookedAt.find(({ stepId }) => stepId === 's4');
    expect(looked?.labels).toContain('nucleus hard or very hard');
  });

  it('finds a yes/no fact and a number, each with the others taken out', () => {
    const facts = [fact('toric', 'yes-no'), fact('axial-length', 'number')];
    const stream = randomStream(8);
    const world: World = {
      ...nineEqualSteps(100),
      eye: (_, place) => {
        const millimetres = 23.5 + stream.normal();
        const toric = place % 5 === 0;
        return {
          facts: { toric, 'axial-length': millimetres },
          effect: (at) => (at === 1 && toric ? Math.log(1.5) : at === 2 ? 0.2 * (millimetres - 23.5) : 0),
        };
      },
    };
    const found = audit(recordOf(world, 5), { procedure: procedure(plainProcedure(9).steps, facts) });
    expect(shown(found, 's2').map(({ label }) => label)).toEqual(['toric']);
    expect(shown(found, 's3').map(({ factor }) => factor)).toEqual(['axial-length']);
    expect(shown(found, 's3')[0]?.label).toMatch(/^axial-length above 2\d\.\d+$/);
  });

  it('finds the place in the list, from positions or from the order of the timed cases', () => {
    const cases = longer(recordOf(nineEqualSteps(100), 4), 's5', 1.6, (place) => place % 5 === 0);
    expect(shown(audit(cases), 's5').map(({ label }) => label)).toContain('first on the list');
    const placed = cases.map((each, place) => ({ ...each, position: (place % 5) + 1 }));
    expect(shown(audit(placed), 's5').map(({ label }) => label)).toContain('first on the list');
    const late = longer(recordOf(nineEqualSteps(100), 4), 's5', 1.6, (place) => place % 5 >= 4);
    expect(shown(audit(late), 's5').map(({ label }) => label)).toContain('last third of the list');
    const partly = Array.from({ length: 20 }, (_, number) => listRecord(number + 1, { operated: 9 }));
    expect(audit(cases, { lists: partly }).lookedAt.flatMap(({ labels }) => labels)).not.toContain('first on the list');
  });

  it('finds waiting just before the step, and having gone back to it', () => {
    const base = recordOf(nineEqualSteps(60), 6);
    const waits = longer(base, 's4', 1.8, (place) => place % 3 === 0).map((each, place) => {
      const at = each.stretches.findIndex(({ stepId }) => stepId === 's4');
      const waiting = length('s4', 12, { kind: 'waiting', reason: 'machine' });
      return place % 3
        ? each
        : {
            ...each,
            stretches: [
              ...each.stretches.slice(0, at),
              waiting,
              ...each.stretches
                .slice(at)
                .map((one) => (one.stepId === 's4' ? { ...one, seconds: one.seconds + 12 } : one)),
            ],
          };
    });
    expect(shown(audit(waits), 's4').map(({ kind }) => kind)).toContain('waiting-before');
    const back = longer(base, 's4', 1.8, (place) => place % 4 === 0).map((each, place) => ({
      ...each,
      returnsNoted: { s4: place % 4 ? 0 : 2 },
    }));
    expect(shown(audit(back), 's4').map(({ kind }) => kind)).toContain('returned-to');
  });

  it('tests what is constant within a list on list means: teaching lists', () => {
    const lists = Array.from({ length: 20 }, (_, place) => listRecord(place + 1, { teaching: place % 3 === 0 }));
    const cases = longer(recordOf(nineEqualSteps(100), 6), 's6', 1.5, (place) => Math.floor(place / 5) % 3 === 0);
    expect(shown(audit(cases, { lists }), 's6').map(({ label }) => label)).toEqual(['teaching lists']);
    const listNoise = audit(recordOf({ ...nineEqualSteps(100), listSd: 0.4 }, 6), { lists });
    expect(listNoise.patterns.filter(({ label }) => label.includes('teaching'))).toEqual([]);
  });

  it('finds change over the cases shown', () => {
    const cases = recordOf(nineEqualSteps(100), 6).map((each, place) => ({
      ...each,
      stretches: each.stretches.map((one) =>
        one.stepId === 's7' ? { ...one, seconds: one.seconds * 2 ** (place / 100) } : one,
      ),
    }));
    const [pattern] = shown(audit(cases), 's7');
    expect(pattern).toMatchObject({ kind: 'over-time', label: 'from the first to the latest of these 100 cases' });
    expect(pattern!.ratio).toBeGreaterThan(1.2);
  });

  it('finds Two groups from 60 cases on', () => {
    const cases = (count: number) =>
      longer(
        recordOf({ ...nineEqualSteps(count), outliers: 0, logSd: 0.15 }, 6),
        's8',
        2.4,
        (place) => place % 2 === 0,
      );
    const [pattern] = shown(audit(cases(100)), 's8');
    expect(pattern?.kind).toBe('bimodality');
    expect(pattern?.label).toMatch(/^two groups of times \(about .+ s and about .+ s\)$/);
    expect(pattern!.nWith + pattern!.nWithout).toBe(100);
    expect(audit(cases(58)).patterns.filter(({ kind }) => kind === 'bimodality')).toEqual([]);
  });

  it('says nothing under 20 cases, nor with fewer than five cases from three lists on a side', () => {
    const toric = procedure(plainProcedure(9).steps, [fact('toric', 'yes-no')]);
    const with_ = (count: number, has: (place: number) => boolean) =>
      audit(
        recordOf(nineEqualSteps(count), 2).map((each, place) => ({ ...each, facts: { toric: has(place) } })),
        { procedure: toric },
      );
    expect(with_(19, (place) => place % 2 === 0)).toMatchObject({ patterns: [], lookedAt: [] });
    const labels = (found: Audit) => found.lookedAt.flatMap((each) => each.labels);
    expect(labels(with_(40, (place) => place % 5 === 0))).toContain('toric');
    expect(labels(with_(40, (place) => place < 4))).not.toContain('toric');
    expect(labels(with_(40, (place) => place < 10))).not.toContain('toric');
  });
});

describe('after a long earlier step', () => {
  const chained = (carry: number, cases = 100): Case[] => {
    const stream = randomStream(21, cases, Math.round(100 * carry));
    return Array.from({ length: cases }, (_, place) => {
      const [all, first] = [0.15 * stream.normal(), 0.25 * stream.normal()];
      const times = stepIds(6).map((_id, at) => {
        const own = at === 0 ? first : 0.22 * stream.normal() + (at === 3 ? carry * first : 0);
        return 60 * Math.exp(all + own);
      });
      return case_(
        place + 1,
        stepIds(6).map((id, at) => length(id, times[at]!)),
        { listId: `list-${Math.floor(place / 5)}` },
      );
    });
  };
  const chain = procedure(
    stepIds(6).map((id, place) => step(id, { earlier: place === 3 ? ['s3', 's1'] : place === 4 ? ['s2'] : [] })),
  );

  it('is found where one carries over, and not where all steps only share a long case', () => {
    const found = audit(chained(0.9), { procedure: chain });
    expect(shown(found, 's4').map(({ factor }) => factor)).toEqual(['after-s1']);
    expect(shown(found, 's4')[0]).toMatchObject({
      kind: 'earlier-step',
      earlierStepId: 's1',
      label: 'after a long S1',
    });
    const shared = audit(chained(0), { procedure: chain });
    expect(shared.patterns.filter(({ kind }) => kind === 'earlier-step')).toEqual([]);
    expect(shared.lookedAt.find(({ stepId }) => stepId === 's4')?.labels).toEqual(
      expect.arrayContaining(['after a long S3', 'after a long S1']),
    );
  });

  it('is not looked for under 30 cases', () => {
    expect(
      audit(chained(0.9, 29), { procedure: chain })
        .lookedAt.flatMap(({ labels }) => labels)
        .some((label) => label.startsWith('after')),
    ).toBe(false);
  });
});

describe('false patterns', () => {
  // Every step may follow any earlier one: the most chances the rules allow. Bar: at most 13 in 100
  // records for carry-over; the family as a whole holds q = 0.10. 60 records: two standard errors beside them.
  it('are rare in records in which nothing goes with anything', () => {
    const every = procedure(
      plainProcedure(9).steps.map((each, place) => ({ ...each, earlier: stepIds(place) })),
      [fact('toric', 'yes-no'), fact('axial-length', 'number')],
    );
    let [any, carried] = [0, 0];
    const runs = 60;
    for (let run = 0; run < runs; run += 1) {
      const stream = randomStream(31, run);
      const cases = recordOf(nineEqualSteps(100), 500 + run).map((each) => ({
        ...each,
        facts: { toric: stream.uniform() < 0.3, 'axial-length': stream.normal() },
      }));
      const found = audit(cases, { procedure: every }).patterns.filter((pattern) => pattern.shown);
      any += found.length > 0 ? 1 : 0;
      carried += found.some(({ kind }) => kind === 'earlier-step') ? 1 : 0;
    }
    expect(carried / runs).toBeLessThanOrEqual(0.13 + 2 * Math.sqrt((0.13 * 0.87) / runs));
    expect(any / runs).toBeLessThanOrEqual(0.13 + 2 * Math.sqrt((0.13 * 0.87) / runs));
  });
});

describe('waiting before a step', () => {
  it('is read by the clock, else in row order', async () => {
    const { waitedBefore } = await import('../../../src/lib/audit/step-factors');
    const waiting = { kind: 'waiting', reason: 'machine' } as const;
    const clocked = case_(1, [stretch('b', 40, 60), stretch('a', 0, 20), stretch('b', 20, 40, waiting)]);
    expect(waitedBefore(clocked, 'b')).toBe(true);
    expect(waitedBefore(clocked, 'a')).toBe(false);
    expect(waitedBefore(case_(1, [length('a', 20), length('b', 9, waiting), length('b', 30)]), 'b')).toBe(true);
    expect(waitedBefore(case_(1, [length('b', 9, waiting), length('a', 20), length('b', 30)]), 'b')).toBe(false);
    expect(waitedBefore(case_(1, [length('a', 20), length('b', 4, waiting), length('b', 30)]), 'b')).toBe(false);
  });
});
