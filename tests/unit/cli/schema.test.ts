import jstat from 'jstat';
import Ajv from 'ajv';
import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { HEAD, madeUp } from './made-up';
import { runIn } from './run-in';

// Ajv (github.com/ajv-validator/ajv) knows nothing of zod: it reads the printed schema as anybody's program would.
let valid: (line: unknown) => string;
let folder: string;
const lines = async (...args: string[]) =>
  (await runIn(folder, [...args, '--json'])).out
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'schema-'));
  const { out, code, err } = await runIn(folder, ['--schema']);
  expect([code, err]).toEqual([0, '']);
  const check = new Ajv({ allErrors: true }).compile(JSON.parse(out) as object);
  valid = (line) => (check(line) ? '' : JSON.stringify(check.errors));
  const both = [HEAD, ...madeUp({ count: 45 }), ...madeUp({ surgeon: 'B', count: 24, factor: 0.8 })];
  await writeFile(join(folder, 'both.csv'), both.join('\n'));
  await writeFile(join(folder, 'few.csv'), [HEAD, ...madeUp({ count: 3 }), 'A,A9,L,phaco,x'].join('\n'));
  await writeFile(join(folder, 'empty.csv'), '');
  const rows = Array.from({ length: 60 }, (_, at) => {
    const eye = at % 3 === 0 ? 'small' : 'large';
    const event = at % 20 === 0 ? 'posterior capsule tear' : at % 7 === 0 ? '' : 'none';
    return `K${at + 1},${Math.floor(at / 5)},${eye},${event},${30 + (at % 7)},${(eye === 'small' ? 90 : 45) + (at % 11)},${60 + (at % 13)}`;
  });
  await writeFile(
    join(folder, 'eyes.csv'),
    ['case_id,list,pupil,event,hydrodissection,capsulorhexis,cortex aspiration', ...rows].join('\n'),
  );
});

describe('the JSON Schema that --schema prints', () => {
  it.each([
    ['a record with a reference set', ['both.csv', '--me', 'A', '--reference', 'B']],
    ['too few cases, with rows left out', ['few.csv']],
    [
      'events, facts, a goal on certain eyes',
      ['eyes.csv', '--goal', 'capsulorhexis', '--from', 'K41', '--eyes', 'pupil=small'],
    ],
    ['a goal that runs', ['eyes.csv', '--goal', 'suggested', '--from', 'K51']],
    ['a full window', ['both.csv', '--me', 'A', '--goal', 'capsulorhexis', '--from', 'A21', '--chosen']],
    ['two stretches compared', ['eyes.csv', '--compare', 'K1..K30', 'K31..K60', '--fixed']],
    ['two stretches too short', ['eyes.csv', '--compare', 'K1..K5', 'K31..K60']],
    ['files that cannot be assessed', ['empty.csv', 'absent.csv', 'few.csv']],
    ['two files as one', ['few.csv', 'both.csv', '--together', '--me', 'A']],
    ['a wrong call', ['eyes.csv', '--goal', 'capsulorhexis', '--from', 'Z1']],
  ])('holds for %s', async (_, args) => {
    for (const line of await lines(...(args as string[]))) expect(valid(line)).toBe('');
  });

  it('refuses a line with a key more, a key less, or another kind of value', async () => {
    const [line] = await lines('both.csv', '--me', 'A');
    const { steps, ...without } = line as { steps: object[] };
    expect(valid({ ...without, steps, extra: 1 })).toContain('additionalProperties');
    expect(valid(without)).toContain('required');
    expect(valid({ ...line, cases: '45' })).toContain('type');
    expect(valid({ ...line, steps: [{ ...steps[0], median_s: undefined, median: 4 }] })).not.toBe('');
  });
});

describe('what a line says of the file and of the whole record', () => {
  it('names the file in every line, and in every row left out', async () => {
    const [few, empty] = await lines('few.csv', 'empty.csv');
    expect(few).toMatchObject({ file: 'few.csv', left_out: [{ file: 'few.csv', row: 23, value: 'x' }] });
    expect(empty).toMatchObject({ file: 'empty.csv', problems: [{ file: 'empty.csv' }] });
  });

  it('gives event rates of the record with what they are counted in', async () => {
    const [line] = await lines('eyes.csv');
    // 60 rows: three with an event (1, 21, 41), blank where the row is a multiple of seven and not of twenty.
    const blank = Array.from({ length: 60 }, (_, at) => at).filter((at) => at % 20 !== 0 && at % 7 === 0).length;
    const answered = 60 - blank;
    expect(line).toMatchObject({
      events: { cases: 60, answered, any: { n: 3, rate: 3 / answered }, near_miss_only: 0, untimed: null },
    });
    expect(answered).toBe(52);
    // Exact interval (Clopper and Pearson 1934) as quantiles of the beta distribution, by jStat.
    const { any } = line?.events as { any: { low95: number; upper95: number } };
    expect(any.low95).toBeCloseTo(jstat.jStat.beta.inv(0.025, 3, 50), 6);
    expect(any.upper95).toBeCloseTo(jstat.jStat.beta.inv(0.975, 4, 49), 6);
    const [unasked] = await lines('both.csv', '--me', 'A');
    const nothing = { n: null, rate: null, low95: null, upper95: null };
    expect(unasked).toMatchObject({ events: { cases: 45, answered: 0, any: nothing, serious: nothing } });
  });

  it('prints how many times as long as the reference a step takes, only where there is one', async () => {
    const { out } = await runIn(folder, ['both.csv', '--me', 'A', '--reference', 'B']);
    expect(out).toMatch(/cases +median +p20 +reference +diff\./);
    expect(out).toMatch(/Capsulorhexis +45 +0:\d\d +0:\d\d +1\.\d+ \(\d(?:\.\d+)? to \d\.\d+\) +\d+ s/);
    expect((await runIn(folder, ['both.csv', '--me', 'A'])).out).not.toMatch(/reference +diff|Reference:/);
  });
});
