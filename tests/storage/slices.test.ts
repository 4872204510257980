import { setImmediate as turn } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { auditInSlices } from '../../src/lib/audit';
import { nineEqualSteps, plainProcedure, recordOf } from '../bench/simulated-record';

// In a process of its own: processor time is counted for a whole process, wall time would count the neighbours' work.
it('a long audit leaves the event loop to others at least every 50 ms of processor time', async () => {
  const cases = recordOf(nineEqualSteps(1000), 3);
  const input = { cases, lists: [], procedure: plainProcedure(9), references: [], seed: 1, resamples: 1000 };
  let answered = 0;
  let going = true;
  // Another request, answered whenever it gets a turn.
  const others = (async () => {
    while (going) {
      await turn();
      answered += 1;
    }
  })();
  const slices: number[] = [];
  let since = process.cpuUsage();
  await auditInSlices(input, {
    pause: async () => {
      const { user, system } = process.cpuUsage(since);
      slices.push((user + system) / 1000);
      await turn();
      since = process.cpuUsage();
    },
  });
  going = false;
  await others;
  // The first slices also compile: the second longest is what a running server shows.
  const [, longest = Infinity] = [...slices].sort((a, b) => b - a);
  expect(longest).toBeLessThan(50);
  expect(slices.length).toBeGreaterThan(10);
  expect(answered).toBeGreaterThanOrEqual(slices.length - 1);
});
