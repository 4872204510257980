import { describe, expect, it } from 'vitest';
import type { ChangeInput } from '../../../src/lib/practice/change';
import { lastingOf } from '../../../src/lib/practice/lasting';
import { randomStream } from '../../../src/lib/statistics';

/** 40 baseline cases and three windows of twenty, lists of five, six steps; little noise, so that each answer is sure. */
function record(changes: readonly number[], sd = 0.08): ChangeInput {
  const stream = randomStream(8, 1);
  const cases = Array.from({ length: 40 + 20 * changes.length }, (_, i) => i);
  const window = Int32Array.from(cases, (i) => Math.max(0, Math.ceil((i + 1 - 40) / 20)));
  return {
    y: Array.from({ length: 6 }, (_, step) =>
      Float64Array.from(
        cases,
        (i) => 4 + sd * stream.normal() + (step === 0 && window[i]! > 0 ? changes[window[i]! - 1]! : 0),
      ),
    ),
    stepIndex: 0,
    others: [1, 2, 3, 4, 5],
    columns: [],
    window,
    windows: changes.length,
    list: Int32Array.from(cases, (i) => Math.floor(i / 5)),
    listsKnown: true,
  };
}
const kinds = (changes: readonly number[], allowance = 0) =>
  lastingOf(record(changes), allowance).map((each) => each.kind);

describe('did it last', () => {
  it('lasted, faded, partly', () => {
    expect(kinds([-0.3, -0.3, -0.3])).toEqual(['lasted', 'lasted']);
    expect(kinds([-0.3, 0, -0.3])).toEqual(['faded', 'lasted']);
    expect(kinds([-0.4, -0.1])).toEqual(['partly']);
  });

  it('not clear where the window fits both', () => {
    expect(lastingOf(record([-0.16, 0.08], 0.25), 0).map((each) => each.kind)).toEqual(['not-clear']);
  });

  it('says of each window what was known then: a later one does not move it', () => {
    const two = lastingOf(record([-0.3, -0.15]), 0.02);
    const three = lastingOf({ ...record([-0.3, -0.15, 0.5]) }, 0.02);
    expect(two[0]!.kind).toBe(three[0]!.kind);
    expect(three[0]!.effect.nWindow).toBe(20);
  });

  it('adds the allowance to every window and to the first', () => {
    const [without] = lastingOf(record([-0.3, -0.25]), 0);
    const [withIt] = lastingOf(record([-0.3, -0.25]), 0.05);
    expect(withIt!.effect.estimate - without!.effect.estimate).toBeCloseTo(0.05, 12);
    expect(withIt!.firstEstimate - without!.firstEstimate).toBeCloseTo(0.05, 12);
    expect(withIt!.effect.rawEstimate).toBeCloseTo(without!.effect.estimate, 12);
  });

  it('shows the last two windows together from the second on', () => {
    const [first, second] = lastingOf(record([-0.3, -0.1, -0.3]), 0);
    expect(first!.together).toBeNull();
    expect(second!.together).toMatchObject({ nBaseline: 40, nWindow: 40 });
    expect(second!.together!.estimate).toBeGreaterThan(second!.effect.estimate);
  });

  it('is empty without a following window, or without a rest to compare with', () => {
    expect(lastingOf(record([-0.3]), 0)).toEqual([]);
    expect(lastingOf({ ...record([-0.3, -0.3]), others: [1] }, 0)).toEqual([]);
  });
});
