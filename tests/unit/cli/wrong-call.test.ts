import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/assess';
import { HEAD, madeUp } from './made-up';
import { runIn } from './run-in';

let folder: string;
const assess = (...args: string[]) => runIn(folder, args);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'wrong-call-'));
  await writeFile(
    join(folder, 'times.csv'),
    [HEAD.slice(8), ...madeUp({ count: 20 }).map((row) => row.slice(2))].join('\n'),
  );
  await writeFile(
    join(folder, 'two.csv'),
    [HEAD, ...madeUp({ count: 20 }), ...madeUp({ surgeon: 'B', count: 9 })].join('\n'),
  );
  await writeFile(join(folder, 'mood.csv'), 'case_id,nucleus,mood,weather\nA1,hard,good,fair\n');
});

describe('a call that does not fit the file', () => {
  it.each([
    [
      'an answer to no question',
      ['--answer', 'colour=blue'],
      /colour": There is no such question\. Questions: procedure, order/,
    ],
    [
      'an answer that is no option',
      ['--answer', 'order=sideways'],
      /order takes one of oldest-first, newest-first, none/,
    ],
    ['a meaning no heading can have', ['--answer', 'column:list=elephant'], /column:list takes one of/],
    ['a case that is not there', ['--goal', 'capsulorhexis', '--from', 'Z9'], /There are 20, from A1 to A20/],
    ['a step that is not there', ['--goal', 'squint', '--from', 'A9'], /Steps: .*capsulorhexis/],
    [
      'facts that are none',
      ['--facts', 'mood.csv'],
      /mood, weather": These are no facts of the eye\. Facts: nucleus, pupil/,
    ],
    ['a file of facts that is not there', ['--facts', 'no.csv'], /There is no such file/],
    ['a procedure that is not there', ['--procedure', 'lasik'], /Known: phaco, sics/],
  ])('%s: exit code 2, and what there is', async (_, args, words) => {
    const { code, out, err } = await assess('times.csv', ...(args as string[]));
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(words);
    const json = await assess('times.csv', '--json', ...(args as string[]));
    expect(json.code).toBe(2);
    expect(JSON.parse(json.out)).toMatchObject({ format: 'next-twenty/problems/1', file: 'times.csv' });
  });

  it('an answer may be meant for one of several files', async () => {
    const { code } = await assess('times.csv', 'two.csv', '--answer', 'surgeon:B=reference', '--json');
    expect(code).toBe(0);
  });

  it.each([
    [['--facts', '-', '-'], 'can be read once'],
    [['times.csv', '--together', '--facts', 'mood.csv'], 'name the file of facts among the files'],
    [['times.csv', '--sheet', 'A', '--sheet', 'B'], 'with --together'],
  ])('%j is refused with a plain sentence', async (args, words) => {
    const { code, out, err } = await assess(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });
});

describe('help and standard input', () => {
  it('-h prints exit codes, examples and why a workbook may be refused', async () => {
    const [short, long] = [await assess('-h'), await assess('--help')];
    expect(short).toEqual(long);
    expect([short.code, short.err]).toEqual([0, '']);
    for (const words of ['Exit codes', 'Examples', '--schema', '--together', 'stopped after 30 seconds'])
      expect(short.out).toContain(words);
  });

  it('- is standard input, named so', async () => {
    let out = '';
    const text = [HEAD, ...madeUp({ count: 20 })].join('\n');
    const code = await run(['-', '--json'], {
      userFolder: folder,
      projectFolder: folder,
      stdin: () => Promise.resolve(new TextEncoder().encode(text)),
      out: (part) => (out += part),
      err: () => undefined,
    });
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ file: '-', cases: 20 });
  });
});
