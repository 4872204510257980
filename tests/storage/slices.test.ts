import { setImmediate as turn } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { auditInSlices, dataQueries } from '../../src/lib/audit';
import { readAuditInSlices, writeStretches, writingCases, writingStretches } from '../../src/lib/intake';
import { startGoalInSlices } from '../../src/lib/practice';
import { inSlices, type Slices } from '../../src/lib/turns';
import { nineEqualSteps, plainProcedure, recordOf } from '../bench/simulated-record';

const procedure = plainProcedure(9);
const whole = (cases: number) => ({ cases: recordOf(nineEqualSteps(cases), 3), lists: [], procedure, references: [] });
const started = { stepId: 's1', measure: 'time', chosenBy: 'seconds', seed: 1, engine: 'test' } as const;
/** 50,000 rows. */
const long = whole(5556);
const text = writeStretches(long.cases, long);

const works: [name: string, work: (slices: Slices) => Promise<unknown>][] = [
  ['a long audit', (slices) => auditInSlices({ ...whole(1000), seed: 1, resamples: 1000 }, slices)],
  ['starting a goal', (slices) => startGoalInSlices({ ...whole(1000), ...started }, slices)],
  [
    'reading a file of 50,000 rows',
    (slices) => readAuditInSlices({ text, fileName: 'long.csv', procedures: [procedure] }, slices),
  ],
  ['asking about odd times in 5,556 cases', (slices) => inSlices(dataQueries(long.cases, procedure), slices)],
  ['writing 50,000 rows', (slices) => inSlices(writingStretches(long.cases, long), slices)],
  ['writing 5,000 cases', (slices) => inSlices(writingCases(long.cases, long), slices)],
];

// In a process of its own: processor time is counted for a whole process, wall time would count the neighbours' work.
describe.each(works)('%s', (_, work) => {
  it('leaves the event loop to others at least every 50 ms of processor time', async () => {
    // Once before: the first time in a process the engine compiles, which no slicing can part.
    await work({ pause: () => turn() });
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
    await work({
      pause: async () => {
        const { user, system } = process.cpuUsage(since);
        slices.push((user + system) / 1000);
        await turn();
        since = process.cpuUsage();
      },
    });
    going = false;
    await others;
    // Other threads of the process (compiling, collecting) count too: one slice in fifty may be theirs.
    const [longest = Infinity] = [...slices].sort((a, b) => b - a).slice(Math.ceil(slices.length / 50));
    expect(longest).toBeLessThan(50);
    expect(slices.length).toBeGreaterThan(10);
    expect(answered).toBeGreaterThanOrEqual(slices.length - 1);
  });
});
