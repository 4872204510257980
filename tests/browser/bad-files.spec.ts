import type { Page } from 'playwright/test';
import type { App } from './app';
import { expect, test } from './fixture';
import { everythingOf, startWith } from './records';

const STRETCHES = 'case_id,procedure,event,step,start_s,end_s';
const TWO = 'A1,phaco,none,Rhexis,0,80\nA1,phaco,none,Hydrodissection,81,110';

const table = (cases: number) =>
  ['case_id,procedure,list,event,capsulorhexis,hydrodissection,cortex aspiration']
    .concat(
      Array.from({ length: cases }, (_, index) => `A${index + 1},phaco,${1 + (index >> 2)},none,${60 + index},30,50`),
    )
    .join('\n');

/** What is wrong, the file, what the page must say of it, and what can still be taken. */
const FILES: readonly [
  what: string,
  name: string,
  content: Buffer | string,
  says: readonly string[],
  take: string | null,
][] = [
  ['an empty file', 'nothing.csv', '', ['nothing.csv is empty.'], null],
  [
    'headings and nothing under them',
    'headings.csv',
    STRETCHES,
    ['There are headings and no rows under them. Add a row for each stretch or case.'],
    null,
  ],
  [
    'a picture named .csv',
    'picture.csv',
    Buffer.from('89504e470d0a1a0a0000000d49484452000000100000001008060000001ff3ff61', 'hex'),
    ['picture.csv: This is a picture (PNG), not a table of times.', 'Save the sheet as CSV'],
    null,
  ],
  [
    'two cases with one code',
    'twice.csv',
    `${table(3)}\nA2,phaco,1,none,75,31,44`,
    ['Row 5, case_id "A2": Two cases have the code "A2": the first begins in row 3. Give this one a code of its own.'],
    'Take 3 cases; 1 row named above stays out',
  ],
  [
    'a time far from the others',
    'far.csv',
    `${table(12)}\nA13,phaco,4,none,7000,30,50`,
    [
      'Taken, but please look: 1',
      'Row 14: 7000 s is far longer than you usually take for capsulorhexis. Is the time right?',
    ],
    'Take 13 cases',
  ],
  [
    'two steps at once',
    'overlap.csv',
    `${STRETCHES}\n${TWO}\nA1,phaco,none,Cortex,100,140`,
    ['Row 2: Stretches of hydrodissection and cortex aspiration overlap by 10 s. Which of the two was going on?'],
    'Take 1 case',
  ],
  [
    'an end before its start',
    'backwards.csv',
    `${STRETCHES}\n${TWO}\nA1,phaco,none,Cortex,180,120`,
    ['Row 4, end_s "120": The end (120) is before the start (180). Check both; perhaps they are swapped.'],
    'Take 1 case; 1 row named above stays out',
  ],
  [
    'seconds above 59',
    'clock.csv',
    'case_id,procedure,step,seconds\nA1,phaco,Rhexis,1:20\nA1,phaco,Hydrodissection,1:75\nA1,phaco,Cortex,0:50',
    ['Row 3, seconds "1:75"'],
    'Take 1 case; 1 row named above stays out',
  ],
  [
    'a negative time',
    'negative.csv',
    'case_id,procedure,step,seconds\nA1,phaco,Rhexis,80\nA1,phaco,Hydrodissection,-12\nA1,phaco,Cortex,50',
    ['Row 3, seconds "-12"'],
    'Take 1 case; 1 row named above stays out',
  ],
  [
    'a step nobody knows',
    'unknown.csv',
    `${STRETCHES}\n${TWO}\nA1,phaco,none,Zonkolysis,120,150`,
    ['Row 4, step "Zonkolysis"', 'Which step is it? (must be answered)', '1 question above must be answered'],
    null,
  ],
  [
    'a mean row at the bottom',
    'mean.csv',
    `${table(4)}\nMean,,,,61.5,30,50`,
    ['Row 6 "Mean": This row is named "Mean" and is not a case; it is left out.'],
    'Take 4 cases; 1 row named above stays out',
  ],
  [
    'a quotation mark too many',
    'quote.csv',
    `${STRETCHES}\n${TWO}\nA2,phaco,none,"Cortex,120,150\nA3,phaco,none,Rhexis,0,80\nA3,phaco,none,"Hydro",81,110`,
    ['a quotation mark is probably missing, or one too many'],
    'Take 1 case; 1 row named above stays out',
  ],
  [
    'four hundred columns nobody knows',
    'wide.csv',
    table(3)
      .split('\n')
      .map((row, at) => [row, ...Array.from({ length: 400 }, (_, n) => (at === 0 ? `measure ${n}` : 'x'))].join(','))
      .join('\n'),
    ['3 cases, 3 steps', 'measure 7'],
    'Take 3 cases',
  ],
];

async function send(page: Page, name: string, content: Buffer | string): Promise<void> {
  await page.goto('/cases/bring-in');
  const file = { name, mimeType: 'text/csv', buffer: Buffer.from(content) };
  await page.locator('input[type="file"]').setInputFiles(file);
  await page.getByRole('button', { name: 'Look at what you chose' }).click();
}

const stored = async (app: App) => {
  const { cases, lists, references } = await everythingOf(app);
  return { cases: cases.length, lists: lists.length, references: references.length };
};
const NOTHING = { cases: 0, lists: 0, references: 0 };

test.describe('what is wrong with a file', () => {
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  test('each is said by name, and nothing is stored', async ({ page, app }) => {
    test.setTimeout(120_000);
    for (const [what, name, content, says, takes] of FILES)
      await test.step(what, async () => {
        await send(page, name, content);
        const main = page.locator('main');
        await expect(main).toContainText(name);
        for (const words of says) await expect(main).toContainText(words);
        const take = page.getByRole('button', { name: /^Take / });
        if (takes === null) await expect(take).toHaveCount(0);
        else await expect(take).toHaveText(takes);
        expect(await stored(app)).toEqual(NOTHING);
      });
  });
});

test.describe('files from elsewhere', () => {
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  const rows = (list: string) =>
    `case_id;list;step;seconds\r\n${list}1;${list};Rhexis;80,5\r\n${list}1;${list};Hydrodissection;31`;

  for (const [encoding, name, bytes, list] of [
    ['UTF-16', 'wide.csv', Buffer.from(`\uFEFF${rows('Été')}`, 'utf16le'), 'Été'],
    ['Windows-1252', 'narrow.csv', Buffer.from(rows('Frühjahr'), 'latin1'), 'Frühjahr'],
  ] as const)
    test(`${encoding}: read letter by letter, with its decimal comma`, async ({ page, app }) => {
      await send(page, name, bytes);
      await expect(page.getByRole('heading', { name: 'Whose times' })).toBeVisible();
      // With the first file taken the record has own cases: then it must be said whose the next ones are.
      if ((await stored(app)).cases > 0) {
        await page.locator('input[name="whose"][value="me"]').check();
        await page.getByRole('button', { name: 'Look again with these answers' }).click();
      }
      await page.getByRole('button', { name: 'Take 1 case' }).click();
      await expect(page.getByText('1 case was taken')).toBeVisible();
      const { cases, lists } = await everythingOf(app);
      const one = cases.find(({ code }) => code === `${list}1`);
      expect(one?.stretches.map(({ stepId, seconds }) => [stepId, seconds])).toEqual([
        ['capsulorhexis', 80.5],
        ['hydrodissection', 31],
      ]);
      expect(lists.map(({ label }) => label)).toContain(list);
    });
});

test.describe('a very long file', () => {
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  test('50,000 rows are taken whole, and taken back in one action', async ({ page, app }) => {
    test.setTimeout(120_000);
    const rows = ['case_id,list,event,step,seconds'];
    for (let one = 0; one < 10_000; one++)
      for (const [index, step] of ['Rhexis', 'Hydrodissection', 'Phaco', 'Cortex', 'IOL'].entries())
        rows.push(`L${one + 1},${1 + Math.floor(one / 8)},none,${step},${30 + ((one * 7 + index * 11) % 40)}`);
    await send(page, 'life.csv', rows.join('\n'));
    await expect(page.getByText('10,000 cases, 5 steps, 1250 lists, events answered in all.')).toBeVisible({
      timeout: 60_000,
    });
    expect(await stored(app)).toEqual(NOTHING);
    await page.getByRole('button', { name: 'Take 10,000 cases' }).click();
    await expect(page.getByText('10,000 cases were taken')).toBeVisible({ timeout: 60_000 });
    expect(await stored(app)).toEqual({ cases: 10_000, lists: 1_250, references: 0 });
    await page.getByRole('button', { name: 'Undo: take the whole import back' }).click();
    await expect(page.getByText('The whole import was taken back.')).toBeVisible({ timeout: 60_000 });
    expect(await stored(app)).toEqual(NOTHING);
  });
});
