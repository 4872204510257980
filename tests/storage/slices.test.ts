import { setImmediate as turn } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { longWorks } from '../bench/long-works';

// How long a slice takes is measured by `npm run bench -- speed`, on a quiet machine; here it is counted, which no neighbour
// on a busy one can change.
describe.each(longWorks)('%s', (_, work) => {
  it('gives others their turn again and again', async () => {
    let [answered, pauses, going] = [0, 0, true];
    // Another request, answered whenever it gets a turn.
    const others = (async () => {
      while (going) {
        await turn();
        answered += 1;
      }
    })();
    await work({
      pause: async () => {
        pauses += 1;
        await turn();
      },
    });
    going = false;
    await others;
    expect(pauses).toBeGreaterThan(30);
    expect(answered).toBeGreaterThanOrEqual(pauses - 1);
  });
});
