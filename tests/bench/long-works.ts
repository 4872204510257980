import { auditInSlices, dataQueries } from '../../src/lib/audit';
import { readAuditInSlices, writeStretches, writingCases, writingStretches } from '../../src/lib/intake';
import { startGoalInSlices } from '../../src/lib/practice';
import { inSlices, type Slices } from '../../src/lib/turns';
import { nineEqualSteps, plainProcedure, recordOf } from './simulated-record';

const procedure = plainProcedure(9);
const whole = (cases: number) => ({ cases: recordOf(nineEqualSteps(cases), 3), lists: [], procedure, references: [] });
const started = { stepId: 's1', measure: 'time', chosenBy: 'seconds', seed: 1, engine: 'test' } as const;
/** 50,000 rows. */
const long = whole(5556);
const text = writeStretches(long.cases, long);

/** What a server does at length while others wait. */
export const longWorks: [name: string, work: (slices: Slices) => Promise<unknown>][] = [
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
