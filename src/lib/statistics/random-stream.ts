import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';

/** Seeded randomness: the same seed and path give the same numbers on every machine. */
export type RandomStream = {
  /** In [0, 1), 53 bits. */
  uniform(): number;
  /** One of 0 … n − 1, each equally likely. */
  integer(n: number): number;
  /** Standard normal. */
  normal(): number;
};

const GOLDEN = 0x9e3779b9;

/** Finaliser of MurmurHash3 (Appleby, public domain): every input bit moves every output bit. */
function mix(word: number): number {
  let h = word;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) | 0;
}

/**
 * An independent stream of random numbers for a seed and a path of whole numbers, e.g. `(seed, view, resample)`.
 * Each path has its own generator (xoroshiro128+, Blackman and Vigna 2018), so work cut into slices, or done in another
 * order, meets the same numbers. Seeding by hashing the path, not by jumping, because jumps cost more than a resample.
 * @param seed whole number; fractions are cut off
 * @param path whole numbers; `(1, 2)` and `(2, 1)` differ
 */
export function randomStream(seed: number, ...path: number[]): RandomStream {
  const state = [0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344];
  const words = [seed, Math.floor(seed / 0x100000000), ...path];
  for (const word of words)
    for (let i = 0; i < 4; i++)
      state[i] = mix(Math.imul(state[i]!, 31) + Math.imul(mix((word | 0) + i * GOLDEN), 17) + i + 1);
  // The one state the generator cannot leave.
  if (!state.some((word) => word !== 0)) state[0] = 1;
  const generator = xoroshiro128plusFromState(state);
  const uniform = () => ((generator.next() >>> 5) * 67108864 + (generator.next() >>> 6)) / 9007199254740992;

  let spare = NaN;
  return {
    uniform,
    integer(n) {
      if (!(Number.isInteger(n) && n >= 1)) throw new RangeError(`integer requires a whole number from 1, not ${n}`);
      return uniformInt(generator, 0, n - 1);
    },
    normal() {
      // Box and Muller (1958): a pair at a time, the second kept for the next call.
      if (!Number.isNaN(spare)) {
        const kept = spare;
        spare = NaN;
        return kept;
      }
      const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
      const angle = 2 * Math.PI * uniform();
      spare = radius * Math.sin(angle);
      return radius * Math.cos(angle);
    },
  };
}
