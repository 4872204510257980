import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  atOnce,
  bundled,
  Cancelled,
  inSlices,
  mapped,
  parted,
  scaled,
  sorted,
  type Work,
} from '../../../src/lib/turns';

function* counting(to: number): Work<string> {
  for (let at = 1; at <= to; at += 1) yield at / to;
  return `counted to ${to}`;
}

describe('long work', () => {
  it('gives the same at once and in slices', async () => {
    let pauses = 0;
    const pause = async () => void (pauses += 1);
    expect(await inSlices(counting(4), { pause })).toBe(atOnce(counting(4)));
    expect(pauses).toBe(4);
  });

  it('tells how far it is, as part of a longer work too', async () => {
    const shares: number[] = [];
    await inSlices(scaled(counting(4), 0.5, 0.9), { pause: async () => {}, progress: (share) => shares.push(share) });
    expect(shares).toHaveLength(4);
    [0.6, 0.7, 0.8, 0.9].forEach((share, at) => expect(shares[at]).toBeCloseTo(share, 12));
  });

  it('sorts as the engine does, equal items in their order, and hands over between', () => {
    const items = Array.from({ length: 9_001 }, (_, at) => ({ at, key: (at * 7919) % 101 }));
    const compare = (a: { key: number }, b: { key: number }) => a.key - b.key;
    expect(atOnce(sorted(items, compare))).toEqual([...items].sort(compare));
    expect([...sorted(items, compare)].length).toBeGreaterThan(10);
    expect(atOnce(sorted([], compare))).toEqual([]);
  });

  it('puts small steps together, and hands over once they weigh a slice', () => {
    const weighed = function* () {
      for (const weight of [1, 1, 3, 10, 0.5, 4, 1]) yield weight;
      return 'done';
    };
    expect(atOnce(bundled(weighed(), 5))).toBe('done');
    expect([...bundled(weighed(), 5)]).toHaveLength(3);
    expect([...bundled(weighed(), 100)]).toHaveLength(0);
    // How far it is, once it is known what all of it weighs; never done before it is.
    expect([...bundled(weighed(), 5, () => 20.5)].map((share) => Number(share.toFixed(3)))).toEqual([
      0.244, 0.732, 0.99,
    ]);
    expect([...bundled(weighed(), 5, () => 10)]).toEqual([0.5, 0.99, 0.99]);
  });

  it('goes through items in parts, each once and in order', () => {
    const items = Array.from({ length: 101 }, (_, at) => at);
    expect(parted(items).flat()).toEqual(items);
    expect(parted(items, 40).map(({ length }) => length)).toEqual([40, 40, 21]);
    expect(parted([])).toEqual([]);
  });

  it('ends where the caller no longer wants the answer', async () => {
    let asked = 0;
    const cancelled = () => (asked += 1) === 2;
    await expect(inSlices(counting(9), { pause: async () => {}, cancelled })).rejects.toBeInstanceOf(Cancelled);
    expect(asked).toBe(2);
  });

  it('carries an error of the work to the caller', async () => {
    const broken = () => mapped([1, 2, 3], (item) => (item === 3 ? never() : item), 1);
    expect(() => atOnce(broken())).toThrow('three');
    await expect(inSlices(broken(), { pause: async () => {} })).rejects.toThrow('three');
  });
});

const never = (): never => {
  throw new Error('three');
};

describe('a row at a time', () => {
  it('is what the array itself would give, whatever the size of a slice', () => {
    fc.assert(
      fc.property(fc.array(fc.integer()), fc.integer({ min: 1, max: 7 }), (items, aSlice) => {
        const make = (item: number, index: number) => item * 2 + index;
        expect(atOnce(mapped(items, make, aSlice))).toEqual(items.map(make));
      }),
    );
  });

  it('hands over after every slice, never after the last item', async () => {
    const pausesFor = async (count: number) => {
      let pauses = 0;
      const items = Array.from({ length: count }, (_, at) => at);
      await inSlices(
        mapped(items, (item) => item, 10),
        { pause: async () => void (pauses += 1) },
      );
      return pauses;
    };
    expect(await Promise.all([0, 10, 11, 30, 31].map(pausesFor))).toEqual([0, 0, 1, 2, 3]);
  });
});
