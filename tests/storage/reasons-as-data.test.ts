import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { outcomeSchema, type Outcome, type StoredResult } from '../../src/lib/model';
import { reportedResult } from '../../src/lib/words/reported-result';
import { migrations, schemaVersion } from '../../src/lib/server/storage/migrations';
import { migrate } from '../../src/lib/server/storage/migrations/migrate';
import { openDiskStore } from '../../src/lib/server/storage/open-disk';
import { openMemoryStore } from '../../src/lib/server/storage';
import { backupText, readText } from './backup-text';
import { asBefore4, resultBefore4 } from './earlier/names';
import { plainOutcome } from '../made-up/plain';
import { aWholeRecord, now } from '../made-up/stored';
import { freshFolder } from './stores';

/** The version before reasons were data. */
const BEFORE = 10;

/** Sentences as that version and earlier ones wrote them, one of each that a result could hold; the last in no words of today. */
const PAUSED = [
  'A serious event in these cases has not been reviewed yet (posterior capsule tear, Cortex, in an operation that was not timed).',
  'The identity pause was seen in 18 of 20 cases; before, in 40 of 40.',
];
const CAVEATS = [
  'Pupil is not used: entered in only 11 of 19 cases.',
  'One baseline or window case has since been left out or erased.',
  'A sentence that no program writes any more; 3 cases.',
];
const FEW = {
  code: 'few-lists',
  because:
    'One of the periods comes from 2 lists only: a good or bad list could account for the whole change. At least three are needed.',
};
const NO_TIME = {
  code: 'not-a-time-goal',
  because: 'This goal is about its checkpoints: what was done is the result, and no change in time is claimed.',
};

const told = [
  { kind: 'paused', paused: PAUSED, caveats: CAVEATS },
  { cannot: FEW, caveats: CAVEATS },
  { cannot: NO_TIME },
  { cannot: null },
];
const shells = (): StoredResult[] => {
  const [result] = aWholeRecord().results;
  if (!result) throw new Error('the made-up record has a result');
  return told.map((_, at) => ({ ...result, id: `result-${at + 1}` }));
};
const before = (): object[] =>
  shells().map((result, at) => ({ ...result, outcome: { ...plainOutcome(), ...told[at] } }));

async function folderOf(version: number) {
  const folder = await freshFolder();
  const { goals } = aWholeRecord();
  const put = (name: string, document: object) =>
    writeFile(join(folder, `${name}.json`), JSON.stringify({ schemaVersion: version, ...document }));
  await put('goals', { next: 2, records: version < 4 ? asBefore4(goals) : goals });
  await put('results', { next: 9, records: version < 4 ? before().map(resultBefore4) : before() });
  await put('contents', { documents: ['goals', 'results'] });
  return folder;
}

const sentencesOf = (outcome: Outcome) => {
  const { head, sentences, beside } = reportedResult(outcome, 'Capsulorhexis');
  return { head, sentences, beside };
};

describe('reasons of a stored result', () => {
  it.each(Array.from({ length: BEFORE }, (_, index) => index + 1))(
    'of version %i are said as they were read, word for word',
    async (version) => {
      const store = await openDiskStore(await folderOf(version), now);
      const [paused, few, noTime, none] = (await store.results()).map(({ outcome }) => sentencesOf(outcome));
      expect(paused).toEqual({ head: 'Paused for safety review.', sentences: PAUSED, beside: CAVEATS });
      expect(few).toEqual({ head: 'Cannot tell yet.', sentences: [FEW.because], beside: CAVEATS });
      expect(noTime).toEqual({ head: 'No time is judged.', sentences: [NO_TIME.because], beside: [] });
      expect(none?.head).toBe('No clear change.');
      await store.close();
    },
  );

  it('of before and of today go into a full backup and come back the same', async () => {
    const store = await openDiskStore(await folderOf(BEFORE), now);
    const today: Outcome = {
      ...plainOutcome(),
      paused: [
        { code: 'unreviewed', event: 'posterior capsule tear', step: null, timed: true },
        { code: 'two-serious', count: 2, steps: ['Cortex', null] },
        { code: 'protected-part', part: 'Pause', start: { seen: 4, looked: 4 }, window: { seen: 1, looked: 4 } },
        { code: 'monitor' },
      ],
      cannot: { code: 'few-rest-cases', baseline: 30, windows: [7] },
      caveats: [
        { code: 'few-entered', fact: 'Pupil', entered: 3, of: 19 },
        { code: 'tied', fact: 'Toric' },
        { code: 'gone-since', cases: 2 },
        { code: 'paused-and-cannot', why: { code: 'not-a-number', what: 'given', given: 'seed' } },
      ],
    };
    expect(outcomeSchema.parse(today)).toEqual(today);
    const results = [
      ...(await store.results()),
      ...shells()
        .map((result) => ({ ...result, id: 'result-5', outcome: today }))
        .slice(0, 1),
    ];
    await store.close();
    const read = await readText(backupText({ ...aWholeRecord(), results }));
    if ('problem' in read) throw new Error(read.problem);
    const other = await openMemoryStore();
    await other.restoreEverything(read.everything);
    expect((await other.everything()).results).toEqual(results);
  });

  it('of a damaged result stay as they are, for the reader to refuse', () => {
    const damaged = { records: [{ outcome: { paused: [4], cannot: 'none' } }, 'not a result', { outcome: null }] };
    const read = migrate(damaged, 'results', BEFORE, schemaVersion, migrations);
    expect(read.records).toEqual([
      { outcome: { paused: [4], caveats: undefined, cannot: 'none' } },
      'not a result',
      { outcome: null },
    ]);
  });
});
