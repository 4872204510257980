import type { RandomStream } from './random-stream';

/**
 * A shuffled copy, every order equally likely (Fisher and Yates 1938; Durstenfeld 1964).
 * @returns a new array; the given one is left alone
 */
export function shuffle<T>(array: readonly T[], stream: RandomStream): T[] {
  const copy = array.slice();
  for (let i = copy.length - 1; i > 0; i--) {
    const j = stream.integer(i + 1);
    [copy[i], copy[j]] = [copy[j] as T, copy[i] as T];
  }
  return copy;
}

/** The same, in place, for numbers in a hot loop. */
export function shuffleInPlace(values: Float64Array, stream: RandomStream): void {
  for (let i = values.length - 1; i > 0; i--) {
    const j = stream.integer(i + 1);
    const held = values[i]!;
    values[i] = values[j]!;
    values[j] = held;
  }
}
