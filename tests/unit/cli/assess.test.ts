import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/assess';
import { randomStream } from '../../../src/lib/statistics';
import { runIn, STEP_SECONDS } from './run-in';

let folder: string;

/** Made-up cases of two surgeons, 40 of A and 24 of B, in lists of five. */
function file(): string {
  const rows = ['surgeon,case_id,list,step,seconds'];
  for (const [surgeon, count, factor] of [
    ['A', 40, 1],
    ['B', 24, 0.8],
  ] as const)
    for (let index = 0; index < count; index++) {
      const stream = randomStream(11, surgeon.charCodeAt(0), index);
      for (const [step, usual] of Object.entries(STEP_SECONDS))
        rows.push(
          `${surgeon},${surgeon}${index + 1},${surgeon}-${Math.floor(index / 5)},${step},${(usual * factor * Math.exp(0.2 * stream.normal())).toFixed(1)}`,
        );
    }
  return rows.join('\n');
}

const assess = (...args: string[]) => runIn(folder, args);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'assess-'));
  await writeFile(join(folder, 'two.csv'), file());
  await writeFile(join(folder, 'empty.csv'), '');
  await writeFile(
    join(folder, 'three.csv'),
    `case_id,step,seconds\n${['A1', 'A2', 'A3'].map((id, at) => `${id},rhexis,${40 + at}.5\n${id},phaco,${90 + at}.5`).join('\n')}\n`,
  );
  await writeFile(
    join(folder, 'one-step.csv'),
    `case_id,list,step,seconds\n${Array.from({ length: 40 }, (_, at) => `A${at + 1},L${Math.floor(at / 5)},rhexis,${40 + ((at * 7) % 23)}.5`).join('\n')}\n`,
  );
  await writeFile(
    join(folder, 'messy.csv'),
    'case_id,step,start_s,end_s\nX1,rhexis,0,30\nX1,rhexis,20,40\nX1,phaco,50,5\nMean,phaco,1,2\n',
  );
  await writeFile(
    join(folder, 'facts.csv'),
    `case_id,nucleus\n${Array.from({ length: 40 }, (_, index) => `A${index + 1},${index % 3 === 0 ? 'hard' : 'medium'}`).join('\n')}\nZ9,hard\nA1,purple\n`,
  );
});

describe('assess from a terminal', () => {
  it('prints in words what Choose shows, and says what it took for granted', async () => {
    const { code, out, err } = await assess('two.csv', '--me', 'A', '--reference', 'B');
    expect(code).toBe(0);
    expect(out).toContain('40 cases');
    expect(out).toContain('Capsulorhexis');
    expect(out).toContain('Use after surgery, never in theatre.');
    expect(out).toContain('Events were not asked in this record. Nothing can be said about safety.');
    expect(out).toMatch(/cases +median +p20/);
    expect(out).toMatch(/Capsulorhexis +40 +0:\d\d/);
    expect(err).not.toContain('Error');
  });

  it('gives JSON alone, one line a file in order, the same bytes for the same seed, and 2 when one file gives nothing', async () => {
    const first = await assess('two.csv', 'empty.csv', 'absent.csv', '--json', '--me', 'A');
    expect(first.code).toBe(2);
    const lines = first.out
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(lines.map((line) => line.format)).toEqual([
      'next-twenty/assessment/2',
      'next-twenty/problems/1',
      'next-twenty/problems/1',
    ]);
    expect(lines[0]).toMatchObject({ procedure: 'phaco', cases: 40, lists: 8, seed: 1 });
    expect(lines[1]).toMatchObject({ file: 'empty.csv' });
    expect((lines[1]?.problems as { why: string }[])[0]?.why.length).toBeGreaterThan(10);
    expect((await assess('two.csv', '--json', '--me', 'A')).out).toBe(`${first.out.split('\n')[0]}\n`);
  });

  it('says that a reference set is too small to compare with, and that single cases are resampled', async () => {
    const lines = file().split('\n');
    const few = lines.filter((line) => !/^B,B(?:[3-9]|\d\d),/.test(line) && !/^A,A(?:2[1-9]|3\d|40),/.test(line));
    await writeFile(join(folder, 'few.csv'), few.join('\n'));
    const { out } = await assess('few.csv', '--me', 'A', '--reference', 'B');
    expect(out).toContain('The reference set holds 2 cases: a step is compared from 10 cases on');
    expect(out).toContain('There are fewer than six lists, so single cases are resampled');
  });

  it('joins facts by case_id and names what does not fit', async () => {
    const { code, out } = await assess('two.csv', '--json', '--me', 'A', '--facts', 'facts.csv');
    expect(code).toBe(0);
    const { left_out } = JSON.parse(out) as { left_out: { row: number; column: string; value: string }[] };
    expect(left_out).toContainEqual(expect.objectContaining({ row: 42, value: 'Z9' }));
    expect(left_out).toContainEqual(expect.objectContaining({ row: 43, column: 'nucleus', value: 'purple' }));
  });

  it('tells what came of a goal from one case on', async () => {
    const { out } = await assess('two.csv', '--json', '--me', 'A', '--goal', 'capsulorhexis', '--from', 'A21');
    const { result } = JSON.parse(out) as {
      result: { kind: string; effect: { n_start: number; n_window: number }; steer_s: number };
    };
    expect(result.effect).toMatchObject({ n_start: 20, n_window: 20 });
    expect(result.steer_s).toBeGreaterThan(20);
  });

  it('says a result with its figures and what it does not say, never a bare verdict', async () => {
    const { out } = await assess('two.csv', '--me', 'A', '--goal', 'capsulorhexis', '--from', 'A21');
    const said = out.slice(out.indexOf('Capsulorhexis. '));
    expect(said).toMatch(/20 cases against 20/);
    expect(said).toMatch(/against the rest of the operation: .* \(.*\d.*\)/);
    expect(said).toMatch(/Does not say that/);
    expect(out).not.toMatch(/cannot-tell|little-change/);
    expect(said).toContain('Safety in these cases: Events were not asked in these 20 cases.');
  });

  it('says how far a window is that is not full, and why there is no result', async () => {
    const running = await assess('two.csv', '--me', 'A', '--goal', 'capsulorhexis', '--from', 'A31');
    expect(running.out).toContain('no result yet. 10 of 20 counted, over 2 of 4 lists.');
    const figures = await assess('two.csv', '--me', 'A', '--goal', 'capsulorhexis', '--from', 'A31', '--json');
    expect((JSON.parse(figures.out) as { result: unknown }).result).toMatchObject({
      kind: 'cannot-tell',
      effect: null,
      plain: null,
      rest: null,
      notes: ['window-not-full'],
      cannot: 'The window is not full: 10 of 20 counted, over 2 of 4 lists.',
      lasting: [],
    });
    const few = await assess('two.csv', '--me', 'A', '--goal', 'capsulorhexis', '--from', 'A5');
    expect(few.out).toMatch(/No result: (?!No case of this file)/);
  });

  it('suggests nothing where no time differs from another', async () => {
    const row = (index: number) => `K${index},L${Math.floor(index / 5)},20,60,120`;
    const text = ['case,list,hydrodissection,rhexis,phaco', ...Array.from({ length: 40 }, (_, at) => row(at))].join(
      '\n',
    );
    await writeFile(join(folder, 'equal.csv'), text);
    const { out } = await assess('equal.csv');
    expect(out).toContain('These times hardly vary, so nothing can be said about which step to look at.');
    expect(out).not.toMatch(/came first|Suggested|two groups/);
    const { steps } = JSON.parse((await assess('equal.csv', '--json')).out) as {
      steps: { first: { seconds: unknown } }[];
    };
    expect(steps.map(({ first }) => first.seconds)).toEqual(steps.map(() => null));
  });

  it('looks for a file where the person stood, then in the current folder', async () => {
    const elsewhere = await mkdtemp(join(tmpdir(), 'assess-other-'));
    await writeFile(join(elsewhere, 'mine.csv'), file());
    const at = async (name: string, userFolder: string, projectFolder: string) => {
      let out = '';
      const code = await run([name, '--json', '--me', 'A'], {
        userFolder,
        projectFolder,
        out: (text) => (out += text),
        err: () => {},
      });
      return [code, out.slice(0, 38)];
    };
    expect(await at('mine.csv', elsewhere, folder)).toEqual([0, '{"format":"next-twenty/assessment/2","']);
    expect(await at('two.csv', elsewhere, folder)).toEqual([0, '{"format":"next-twenty/assessment/2","']);
    expect(await at(join(folder, 'two.csv'), elsewhere, elsewhere)).toEqual([
      0,
      '{"format":"next-twenty/assessment/2","',
    ]);
    expect(await at('mine.csv', folder, folder)).toEqual([2, '{"format":"next-twenty/problems/1","fi']);
  });

  it('knows who is meant, and says so when a name is not in the file', async () => {
    const refused = await assess('two.csv', '--json', '--me', 'C');
    expect(refused.code).toBe(2);
    expect(JSON.parse(refused.out)).toEqual({
      format: 'next-twenty/problems/1',
      file: 'two.csv',
      problems: [
        {
          file: 'two.csv',
          row: null,
          column: 'surgeon',
          value: 'C',
          why: expect.stringMatching(/there are A, B/) as string,
        },
      ],
    });
    // With two surgeons, naming the reference says who the other is; spelling does not matter.
    const one = await assess('two.csv', '--json', '--reference', 'b');
    expect(JSON.parse(one.out)).toMatchObject({
      cases: 40,
      steps: expect.arrayContaining([
        expect.objectContaining({ reference: expect.objectContaining({ n: 24, readers: 1 }) as object }),
      ]) as object,
    });
    const guessed = await assess('two.csv', '--json');
    expect(guessed.code).toBe(0);
    expect(guessed.err).toMatch(/Who is "A"\? Taken as: me\..*--answer "surgeon:A=…"/);
    const answered = await assess('two.csv', '--json', '--answer', 'surgeon:A=leave', '--answer', 'surgeon:B=me');
    expect(JSON.parse(answered.out)).toMatchObject({ cases: 24 });
  });

  it('says why there is no difference of three cases, in words and in JSON', async () => {
    const { out } = await assess('three.csv');
    expect(out.match(/Cannot say yet: 3 of the 5 cases it needs\./g)).toHaveLength(2);
    const { steps } = JSON.parse((await assess('three.csv', '--json')).out) as { steps: Record<string, unknown>[] };
    for (const step of steps.filter(({ n }) => n === 3))
      expect(step).toMatchObject({
        p20_s: null,
        difference_s: null,
        difference_interval_s: null,
        difference_cannot: { code: 'too-few-cases' },
      });
  });

  it('compares nothing where only one step is timed', async () => {
    const { out } = await assess('one-step.csv');
    expect(out).toContain('Only one step is timed.');
    expect(out).toContain('none can be compared');
    expect(out).not.toContain('about as much as each other');
  });

  it('puts refused rows into left_out, what is only asked about on standard error, and leaves nothing unknown out', async () => {
    const { out, err, code } = await assess('messy.csv', '--json');
    expect(code).toBe(0);
    const answer = JSON.parse(out) as { left_out: unknown[]; lists: unknown; steps: Record<string, unknown>[] };
    expect(answer.left_out).toEqual([
      {
        file: 'messy.csv',
        row: 4,
        column: 'end_s',
        value: '5',
        why: expect.stringMatching(/before the start/) as string,
      },
      { file: 'messy.csv', row: 5, column: null, value: 'Mean', why: expect.stringMatching(/not a case/) as string },
    ]);
    expect(answer.lists).toBeNull();
    const keys = [
      'step',
      'label',
      'n',
      'median_s',
      'p20_s',
      'adjusted',
      'difference_s',
      'difference_same_eyes_s',
      'difference_with_eye_s',
      'difference_interval_s',
      'difference_cannot',
      'spread',
      'spread_interval',
      'share',
      'went_back_per_case',
      'waiting_s',
      'over_time',
      'reference',
      'events',
      'first',
    ];
    for (const step of answer.steps) expect(Object.keys(step)).toEqual(keys);
    expect(err).toMatch(/2 rows or values were left out; each is named in left_out/);
    expect(err).toMatch(/row 3: This stretch overlaps/);
  });

  it('asks about a time far from the others, in words and beside the JSON, and counts it', async () => {
    await writeFile(join(folder, 'far.csv'), file().replace(/^A,A1,A-0,rhexis,.*$/m, 'A,A1,A-0,rhexis,7000'));
    const asks = 'ow 2: 7000 s is far longer than you usually take for capsulorhexis. Is the time right?';
    expect((await assess('far.csv', '--me', 'A')).out).toContain(asks);
    const { out, err } = await assess('far.csv', '--me', 'A', '--json');
    expect(err).toContain(asks);
    const answer = JSON.parse(out) as { cases: number; left_out: { row: number }[] };
    expect(answer.cases).toBe(40);
    expect(answer.left_out.filter(({ row }) => row === 2)).toEqual([]);
  });

  it('joins facts to the cases of the reference too, and refuses a file of facts that is not there', async () => {
    await writeFile(join(folder, 'both.csv'), `case_id,nucleus\n${[1, 2, 3].map((n) => `B${n},hard`).join('\n')}\n`);
    const { out } = await assess('two.csv', '--json', '--me', 'A', '--reference', 'B', '--facts', 'both.csv');
    expect(JSON.parse(out)).toMatchObject({ left_out: [] });
    const none = await assess('two.csv', '--json', '--me', 'A', '--facts', 'nowhere.csv');
    expect(none.code).toBe(2);
    expect(JSON.parse(none.out)).toMatchObject({ problems: [{ value: 'nowhere.csv' }] });
  });

  it('aims a goal at certain eyes, and names those it knows', async () => {
    const rows = Array.from({ length: 80 }, (_, at) => {
      const times = [30, 50, 40, 60].map((each, step) => each + ((7 * at + 3 * step) % 11));
      const small = at % 2 === 1;
      return [
        `K${at + 1}`,
        small ? 'small' : 'large',
        times[0],
        (small ? 2 : 1) * times[1]! * (small && at > 50 ? 0.6 : 1),
        times[2],
        times[3],
      ].join(',');
    });
    await writeFile(
      join(folder, 'eyes.csv'),
      ['case_id,pupil,main incision,capsulorhexis,hydrodissection,cortex aspiration', ...rows].join('\n'),
    );
    const asked = [
      '--answer',
      'order=oldest-first',
      '--goal',
      'capsulorhexis',
      '--from',
      'K41',
      '--eyes',
      'pupil=small',
    ];
    const { out } = await assess('eyes.csv', '--json', ...asked);
    const { result } = JSON.parse(out);
    expect(result.eyes).toMatchObject({ fact: 'pupil', level: 'small', start: { such: 20, of: 39 }, changed_late: 0 });
    expect(result.effect).toMatchObject({ n_start: 20, n_window: 20 });
    expect((await assess('eyes.csv', ...asked)).out).toContain('Capsulorhexis (pupil small)');
    // The order was answered here; without the answer the result itself says that it was guessed.
    expect(result.notes).not.toContain('order-guessed');
    const guessed = await assess('eyes.csv', ...asked.slice(2));
    expect(guessed.out).toContain('Which way the rows run was guessed.');
    expect(JSON.parse((await assess('eyes.csv', '--json', ...asked.slice(2))).out).result.notes).toContain(
      'order-guessed',
    );
    const none = await assess('eyes.csv', '--json', ...asked.slice(0, -1), 'pupil=tiny');
    expect(JSON.parse(none.out)).toMatchObject({ problems: [{ column: '--eyes', value: 'pupil=tiny' }] });
  });

  it('asks about a whole file in minutes, and about a row with a cell too many', async () => {
    const rows = Array.from(
      { length: 30 },
      (_, at) => `M${at + 1},0.${67 + (at % 9)},0.${71 + (at % 7)},1.${62 + (at % 5)}`,
    );
    const head = 'case_id,capsulorhexis,hydrodissection,cortex aspiration';
    await writeFile(join(folder, 'minutes.csv'), [head, ...rows].join('\n'));
    const seconds = ['--answer', 'plain-number=seconds'];
    expect((await assess('minutes.csv', '--json', ...seconds)).err).toContain('Are they in minutes (0.67 for 40 s)?');
    const normal = rows.map(
      (_, at) => `N${at + 1},${40 + (at % 9)},${30 + (at % 7)},${60 + (at % 5)}${at === 4 ? ',12' : ''}`,
    );
    await writeFile(join(folder, 'cell.csv'), [head, ...normal].join('\n'));
    const { err } = await assess('cell.csv', '--json');
    expect(err).toContain('row 6: This row has 5 cells under 4 headings');
    expect(err).not.toContain('Are they in minutes');
  });

  it('answers a goal on no step and from no case without a guess', async () => {
    const step = await assess('two.csv', '--json', '--me', 'A', '--goal', 'squint', '--from', 'A21');
    expect(step.code).toBe(2);
    expect(JSON.parse(step.out)).toMatchObject({ problems: [{ column: '--goal', value: 'squint' }] });
    const from = await assess('two.csv', '--json', '--me', 'A', '--goal', 'suggested', '--from', 'A99');
    expect(from.code).toBe(2);
    expect(JSON.parse(from.out)).toMatchObject({
      file: 'two.csv',
      problems: [{ column: '--from', value: 'A99', why: 'No case has this code. There are 40, from A1 to A40.' }],
    });
  });

  it.each([
    [['two.csv', '--answer', 'order'], 'ID=VALUE'],
    [['two.csv', '--window', '30', '--goal', 'x', '--from', 'y'], '20 or 40'],
    [['two.csv', '--goal', 'capsulorhexis'], 'go together'],
    [['two.csv', '--eyes', 'pupil=small'], 'goes with --goal'],
    [['two.csv', '--goal', 'x', '--from', 'y', '--eyes', 'pupil'], 'FACT=LEVEL'],
    [[], 'at least one file'],
    [['two.csv', '--seed', 'x'], 'whole number'],
    [['two.csv', '--nonsense'], 'nonsense'],
  ])('refuses %j with a plain sentence', async (args, words) => {
    const { code, err, out } = await assess(...(args as string[]));
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(out).toBe('');
  });
});
