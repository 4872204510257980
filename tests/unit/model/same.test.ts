import fc from 'fast-check';
import { isDeepStrictEqual } from 'node:util';
import { describe, expect, it } from 'vitest';
import { same } from '../../../src/lib/model';

describe('the same', () => {
  it('says what Node says of any two values of JSON, and of one with itself', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 3 }), fc.jsonValue({ maxDepth: 3 }), (one, other) => {
        expect(same(one, structuredClone(one))).toBe(true);
        expect(same(one, other)).toBe(isDeepStrictEqual(one, other));
      }),
    );
  });

  it('minds the order of a list, not that of keys, and takes undefined as not there', () => {
    expect(same([1, 2], [2, 1])).toBe(false);
    expect(same({ a: 1, b: [2] }, { b: [2], a: 1 })).toBe(true);
    expect(same({ a: 1, b: undefined }, { a: 1 })).toBe(true);
    expect(same({ a: null }, { a: undefined })).toBe(false);
    expect(same([], {})).toBe(false);
    expect(same({ constructor: undefined }, {})).toBe(true);
  });
});
