import { expect } from 'vitest';

/** Within an absolute distance, element by element; the message carries all digits. */
export function expectClose(actual: number | readonly number[], expected: number | readonly number[], within: number) {
  const got = typeof actual === 'number' ? [actual] : actual;
  const wanted = typeof expected === 'number' ? [expected] : expected;
  expect(got.length).toBe(wanted.length);
  wanted.forEach((value, i) => {
    const distance = Math.abs((got[i] ?? NaN) - value);
    expect(distance <= within, `${got[i]} is not within ${within} of ${value} (place ${i})`).toBe(true);
  });
}

/** Within a share of the expected value. */
export function expectRelative(
  actual: number | readonly number[],
  expected: number | readonly number[],
  share: number,
) {
  const got = typeof actual === 'number' ? [actual] : actual;
  const wanted = typeof expected === 'number' ? [expected] : expected;
  expect(got.length).toBe(wanted.length);
  wanted.forEach((value, i) => expectClose(got[i] ?? NaN, value, share * Math.abs(value)));
}
