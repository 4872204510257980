import { auditInSlices, dataQueries } from '../../src/lib/audit';
import { readAuditInSlices, writingCases, writingStretches } from '../../src/lib/intake';
import { startGoalInSlices } from '../../src/lib/practice';
import { atOnce, inSlices, type Slices } from '../../src/lib/turns';
import { nineEqualSteps, plainProcedure, recordOf } from './simulated-record';

const procedure = plainProcedure(9);
const whole = (cases: number) => ({ cases: recordOf(nineEqualSteps(cases), 3), lists: [], procedure, references: [] });
const started = { stepId: 's1', measure: 'time', chosenBy: 'seconds', seed: 1, engine: 'test' } as const;
/** 50,000 rows. */
const long = whole(5556);
const text = atOnce(writingStretches(long.cases, long));

/** Made once: in the runs that count nothing but the reading is timed. */
function reading(make: () => { text: string } | { bytes: Uint8Array }) {
  let made: { text: string } | { bytes: Uint8Array } | undefined;
  return (slices: Slices): Promise<unknown> =>
    readAuditInSlices({ ...(made ??= make()), fileName: 'large.csv', procedures: [procedure] }, slices);
}

const rowsOf = (count: number, row: (index: number) => string): string =>
  ['case_id,step,seconds', ...Array.from({ length: count }, (_, at) => row(at))].join('\n');
const stepOf = (at: number) => procedure.steps[at % 9]?.label ?? '';
const MEGABYTES = 1_000_000;

/** Files that no surgeon has and a server must bear. */
export const oddFiles: [name: string, work: (slices: Slices) => Promise<unknown>][] = [
  [
    'reading 200,000 rows',
    reading(() => ({ text: rowsOf(200_000, (at) => `K${at % 22_222},${stepOf(at)},${20 + (at % 70)}`) })),
  ],
  [
    'reading 100,000 cases, one row each',
    reading(() => ({
      text: [
        'case,s1,s2',
        ...Array.from({ length: 100_000 }, (_, at) => `K${at},${30 + (at % 50)},${60 + (at % 40)}`),
      ].join('\n'),
    })),
  ],
  [
    'refusing 20,000 columns',
    reading(() => ({ text: Array.from({ length: 20_000 }, (_, at) => `heading ${at}`).join(',') })),
  ],
  ['refusing 200,000 step names', reading(() => ({ text: rowsOf(200_000, (at) => `K${at},made-up ${at},20`) }))],
  [
    'naming 200,000 rows that cannot be read',
    reading(() => ({ text: rowsOf(200_000, (at) => `K${at},${stepOf(at)},x`) })),
  ],
  ['refusing one line of 19 MB', reading(() => ({ text: 'x'.repeat(19 * MEGABYTES) }))],
  ['refusing 19 MB of commas', reading(() => ({ text: ','.repeat(19 * MEGABYTES) }))],
  ['refusing 19 MB of line breaks', reading(() => ({ text: '\n'.repeat(19 * MEGABYTES) }))],
  ['refusing deeply nested text', reading(() => ({ text: '{"a":['.repeat(3 * MEGABYTES) }))],
  [
    'reading cells of 30,000 letters',
    reading(() => ({ text: rowsOf(600, (at) => `K${at},${'ab '.repeat(10_000)},20`) })),
  ],
  [
    'reading 19 MB of Windows-1252',
    reading(() => ({
      bytes: Uint8Array.from(
        rowsOf(
          280_000,
          (at) => `K${at % 31_111},${stepOf(at)},${20 + (at % 70)},Länge, Größe, Öffnung und mehr der Worte`,
        ),
        (sign) => sign.charCodeAt(0),
      ),
    })),
  ],
];

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
