import { drawInto } from '../../src/lib/statistics';
import type { Case } from '../../src/lib/model';
import { quantileOfSorted, randomStream } from '../../src/lib/statistics';

/**
 * What a straightforward program does: the same resamples of lists, each drawn time copied out, sorted, and median and
 * 20th percentile read off. No spread, no ranks, no reference set, no adjustment.
 *
 * @returns the sum of what was read, so that nothing can be optimised away.
 */
export function plainLoop(cases: readonly Case[], steps: number, seed: number, resamples: number): number {
  const lists = new Map<string, number[]>();
  cases.forEach(({ listId }, place) => {
    const key = listId ?? '';
    lists.set(key, [...(lists.get(key) ?? []), place]);
  });
  const members = [...lists.values()].map((places) => Int32Array.from(places));
  const seconds = Array.from({ length: steps }, (_, step) =>
    Float64Array.from(
      cases,
      ({ stretches }) => stretches.find(({ stepId }) => stepId === `s${step + 1}`)?.seconds ?? NaN,
    ),
  );
  const counts = new Int32Array(members.length);
  let read = 0;
  for (let draw = 0; draw < resamples; draw += 1) {
    drawInto(counts, randomStream(seed, draw));
    for (const values of seconds) {
      const drawn = new Float64Array(counts.reduce((sum, count, list) => sum + count * members[list]!.length, 0));
      let n = 0;
      for (let list = 0; list < counts.length; list += 1)
        for (let k = 0; k < counts[list]!; k += 1)
          for (const place of members[list]!) if (!Number.isNaN(values[place])) drawn[n++] = values[place]!;
      const sorted = drawn.subarray(0, n).sort();
      if (n > 0) read += quantileOfSorted(sorted, 0.5) + quantileOfSorted(sorted, 0.2);
    }
  }
  return read;
}
