import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { USAGE } from '../../../src/cli/usage';
import type { Assessment } from '../../../src/lib/assess';
import { randomStream } from '../../../src/lib/statistics';
import { runIn, STEP_SECONDS } from './run-in';

let folder: string;

/** A hundred made-up cases in lists of five; the capsulorhexis a third shorter from the 51st on. */
function file(): string {
  const rows = ['case_id,list,step,seconds'];
  for (let index = 0; index < 100; index++) {
    const stream = randomStream(12, index);
    for (const [step, usual] of Object.entries(STEP_SECONDS)) {
      const change = step === 'rhexis' && index >= 50 ? 2 / 3 : 1;
      rows.push(
        `C${index + 1},L${Math.floor(index / 5) + 1},${step},${(usual * change * Math.exp(0.2 * stream.normal())).toFixed(1)}`,
      );
    }
  }
  return rows.join('\n');
}

const assess = (...args: string[]) => runIn(folder, args);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'compare-'));
  await writeFile(join(folder, 'times.csv'), file());
});

describe('two stretches of a file', () => {
  it('are compared in words, as chosen freely unless fixed beforehand', async () => {
    const freely = await assess('times.csv', '--compare', 'C1..C50', 'C51..C100');
    expect(freely.code).toBe(0);
    expect(freely.out).toContain('Capsulorhexis was shorter in cases C51 to C100 than in cases C1 to C50.');
    expect(freely.out).toContain('50 cases over 10 lists against 50 cases over 10 lists.');
    expect(freely.out).toContain('chosen freely');
    expect(freely.out).toContain('Does not say: Why');
    const fixed = await assess('--compare', 'C1..C50', 'C51..C100', 'times.csv', '--fixed');
    expect(fixed.code).toBe(0);
    expect(fixed.out).not.toContain('chosen freely');
  });

  it('are compared in JSON, with medians as recorded and ratios of the later to the earlier', async () => {
    const { out, code } = await assess('times.csv', '--json', '--compare', 'C1..C50', 'C51..C100', '--fixed');
    expect(code).toBe(0);
    const { compare } = JSON.parse(out) as Assessment;
    expect(compare).toMatchObject({
      fixed: true,
      alpha: 0.05,
      earlier: { from: 'C1', to: 'C50', cases: 50, lists: 10 },
      cannot: null,
    });
    const rhexis = compare!.steps.find(({ step }) => step === 'capsulorhexis')!;
    expect(rhexis).toMatchObject({ named: 'shorter', n: [50, 50], cannot: null });
    expect(rhexis.low).toBeLessThan(2 / 3);
    expect(rhexis.high).toBeGreaterThan(2 / 3);
    const times = file()
      .split('\n')
      .filter((row) => row.includes(',rhexis,'))
      .map((row) => Number(row.split(',')[3]))
      .slice(0, 50)
      .sort((a, b) => a - b);
    expect(rhexis.median_s[0]).toBeCloseTo((times[24]! + times[25]!) / 2, 9);
    expect(compare!.steps.filter(({ named }) => named !== null)).toHaveLength(1);
  });

  it('give their reason where there is too little, and nothing where nothing was asked', async () => {
    const few = await assess('times.csv', '--json', '--compare', 'C1..C10', 'C51..C100');
    expect(few.code).toBe(0);
    expect((JSON.parse(few.out) as Assessment).compare).toMatchObject({ cannot: { code: 'few-cases' }, steps: [] });
    const none = await assess('times.csv', '--json');
    expect(JSON.parse(none.out)).not.toHaveProperty('compare');
  });

  it('exit with 2 for a wrong id or order, and say what there is', async () => {
    const unknown = await assess('times.csv', '--compare', 'C1..C50', 'C51..C400');
    expect(unknown.code).toBe(2);
    expect(unknown.err).toContain('C400');
    expect(unknown.err).toContain('There are 100, from C1 to C100.');
    const json = await assess('times.csv', '--json', '--compare', 'C1..C50', 'X..C90');
    expect(JSON.parse(json.out)).toMatchObject({ format: 'next-twenty/problems/1', problems: [{ value: 'X' }] });
    const turned = await assess('times.csv', '--compare', 'C50..C1', 'C51..C100');
    expect([turned.code, turned.err.includes('C1 comes before C50')]).toEqual([2, true]);
  });

  it('must be two, and are in the usage', async () => {
    for (const args of [['--compare', 'C1..C50'], ['--compare', 'C1', 'C2'], ['--fixed']])
      expect((await assess('times.csv', ...args)).code).toBe(2);
    expect(USAGE).toContain('--compare A..B C..D [--fixed]');
  });
});
