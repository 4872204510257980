import { expect, it } from 'vitest';
import { itemAt } from '../../src/lib/item-at';

it('an item that must be there is read, whatever it is, and its absence is said with the place', () => {
  const held = [0, NaN, null];
  expect([itemAt(held, 0), itemAt(held, 1), itemAt(held, 2)]).toEqual(held);
  expect(itemAt(Float64Array.of(1, 2), 1)).toBe(2);
  for (const index of [-1, 2, 0.5, NaN])
    expect(() => itemAt(Float64Array.of(1, 2), index)).toThrow(`No item at ${index} of 2`);
});
