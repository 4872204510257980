import { describe, expect, it } from 'vitest';
import {
  monitor,
  monitoredOperations,
  monitorSignalled,
  seriousRatePublished,
  type MonitoredOperation,
} from '../../../src/lib/safety';
import { limitFor, rateAtOdds, signalProbability } from '../../../src/lib/safety/monitor-chain';
import { randomStream } from '../../../src/lib/statistics';
import { answered, list, minor, none, reviewed, tear } from '../../made-up/events';

const quiet: MonitoredOperation = { serious: false, reviewed: true, caseId: null };
const event = (reviewedYet: boolean): MonitoredOperation => ({
  serious: true,
  reviewed: reviewedYet,
  caseId: 'case-1',
});
const run = (operations: readonly MonitoredOperation[], rate?: number) => {
  const said = monitor(operations, rate === undefined ? null : { rate, source: 'own unit, 2024' });
  if (said.kind !== 'run') throw new Error(said.kind);
  return said;
};
const quietFor = (count: number) => Array.from({ length: count }, () => quiet);

describe('the chain of probabilities', () => {
  const one = (expected: number, truth: number) => [{ share: 1, expected, truth }];

  it.each([
    // Python: the distribution over all sums that can be reached, operation by operation, no grid
    [0.0069, 1.80303955078125, 0.0497814141134151, 0.268342005403526],
    [0.0101, 2.058837890625, 0.049819686482246, 0.330571155041192],
    [0.0195, 2.61600494384766, 0.0496281905656331, 0.468512945752463],
    [0.05, 3.49600982666016, 0.0499103776920869, 0.731449995194845],
  ])('rate %f: signals within 200 as the exact states say', (rate, limit, asExpected, doubled) => {
    expect(Math.abs(signalProbability(one(rate, rate), 2, limit, 200) - asExpected)).toBeLessThan(0.002);
    expect(Math.abs(signalProbability(one(rate, rateAtOdds(rate, 2)), 2, limit, 200) - doubled)).toBeLessThan(0.002);
  });

  it('with several risks: a seeded simulation signals as often as it says', () => {
    const classes = [
      { share: 0.7, expected: 0.01, truth: 0.01 },
      { share: 0.3, expected: 0.06, truth: 0.06 },
    ];
    const limit = limitFor(classes, 2, 200, 0.05);
    expect(signalProbability(classes, 2, limit, 200)).toBeLessThanOrEqual(0.05);
    const stream = randomStream(6, 6);
    let signals = 0;
    for (let record = 0; record < 1500; record += 1) {
      let sum = 0;
      for (let operation = 0; operation < 200; operation += 1) {
        const risk = stream.uniform() < 0.7 ? 0.01 : 0.06;
        const norm = 1 - risk + 2 * risk;
        sum = Math.max(0, sum + (stream.uniform() < risk ? Math.log(2 / norm) : -Math.log(norm)));
        if (sum >= limit) {
          signals += 1;
          break;
        }
      }
    }
    // Binomial SD of 1,500 at 0.05 is 0.0056: three of them.
    expect(Math.abs(signals / 1500 - 0.05)).toBeLessThan(0.017);
  });
});

describe('the monitor', () => {
  it('says nothing where events were never asked', () => {
    expect(monitor([])).toEqual({ kind: 'never-asked' });
    expect(monitoredOperations(answered(null, null))).toEqual([]);
  });

  it('starts from the published rate and would notice a doubling within 200 about one time in three', () => {
    const said = run(quietFor(40));
    expect(said).toMatchObject({
      rate: seriousRatePublished.rate,
      source: seriousRatePublished.source,
      signalled: false,
      events: 0,
    });
    expect(said.wouldNotice).toBeGreaterThan(0.3);
    expect(said.wouldNotice).toBeLessThan(0.37);
    expect(said.since).toMatchObject({ operations: 40, events: 0 });
    expect(said.since.expected).toBeCloseTo(40 * 0.0101, 9);
  });

  it('signals after a run of serious events, waits for the review, and then starts at 0', () => {
    const pending = run([...quietFor(10), event(true), event(true), event(true), event(false), ...quietFor(5)]);
    expect(pending.signalled).toBe(true);
    expect(pending.signals).toMatchObject([{ at: 13, events: 4, operations: 14, reviewed: false }]);
    const done = run([...quietFor(10), event(true), event(true), event(true), event(true), ...quietFor(5)]);
    expect(done.signalled).toBe(false);
    expect(done.signals).toMatchObject([{ at: 13, reviewed: true }]);
    expect(done.since).toMatchObject({ events: 0, operations: 5 });
    expect(done.path.at(-1)).toBe(0);
  });

  it('keeps its rate for 200 operations, then blends in the own record each time it has doubled', () => {
    const often = [...quietFor(150), event(true), ...quietFor(49)];
    expect(run(often).rate).toBe(0.0101);
    expect(run([...often, quiet]).rate).toBeCloseTo((1 + 200 * 0.0101) / 400, 12);
    expect(run(quietFor(401)).rate).toBeCloseTo((200 * 0.0101) / 600, 12);
    expect(run(quietFor(800)).rate).toBe(run(quietFor(401)).rate);
    expect(run(quietFor(801)).limits.map(({ from }) => from)).toEqual([0, 200, 400, 800]);
    expect(run([...often, quiet]).source).toContain('your own first 200');
  });

  it('carries the sum over as far from the new line as it was from the old', () => {
    const before = [...quietFor(197), event(true), event(true), event(true)];
    const said = run([...before, quiet]);
    const [first, second] = said.limits;
    const weight = said.path[200]! - (said.path[199]! * second!.limit) / first!.limit;
    expect(weight).toBeLessThan(0);
    expect(weight).toBeGreaterThan(-0.03);
  });

  it('says the same of a waiting signal without working out every limit', () => {
    const stream = randomStream(2, 2);
    for (let record = 0; record < 6; record += 1) {
      const operations = Array.from({ length: 260 }, () =>
        stream.uniform() < 0.03 ? event(stream.uniform() < 0.6) : quiet,
      );
      expect(monitorSignalled(operations)).toBe(run(operations).signalled);
    }
    expect(monitorSignalled([])).toBe(false);
  });

  it('takes the rate entered, with its source', () => {
    expect(run(quietFor(10), 0.03)).toMatchObject({ rate: 0.03, source: 'own unit, 2024' });
    expect(run(quietFor(10), 0.03).limits[0]!.limit).toBeGreaterThan(run(quietFor(10), 0.01).limits[0]!.limit);
  });

  it('with complexity classes: an event in an eye at high risk weighs less', () => {
    const at = (risk: number) =>
      run([{ ...event(true), risk }, ...quietFor(20).map((one, i) => ({ ...one, risk: i % 2 ? 0.01 : 0.08 }))]);
    expect(at(0.08).path[0]!).toBeLessThan(at(0.01).path[0]!);
  });

  it('gets answered operations in order, with those of a list that were not timed after its timed ones', () => {
    const cases = answered([], [tear], null, [minor], [reviewed(tear)], []);
    const lists = [
      list(1, { operated: 8, eventsAnsweredForAll: true, untimedEvents: [tear, minor] }),
      list(2, { operated: 4 }),
    ];
    const operations = monitoredOperations([...cases].reverse(), lists);
    expect(operations.map(({ serious, reviewed: yes }) => [serious, yes])).toEqual([
      [false, true],
      [true, false],
      [false, true],
      [true, true],
      [true, false],
      [false, true],
      [false, true],
      [false, true],
    ]);
    expect(monitoredOperations(none(2), [], () => 0.02)[0]).toMatchObject({ risk: 0.02, caseId: 'case-1' });
  });
});
