import type { Page } from 'playwright/test';
import { germanWorkbook, longWithBlanks, messyWide } from './bring-in-files';
import { expect, test } from './fixture';
import { press, unfold } from './forms';
import { open } from './open';
import { everythingOf, startWith } from './records';

const look = async (page: Page, text: string, scripts: boolean) => {
  if (scripts) await open(page, '/cases/bring-in');
  else await page.goto('/cases/bring-in');
  await page.locator('textarea[name="cells"]').fill(text);
  await press(page, 'Look at the cells');
  await expect(page.getByRole('heading', { name: 'What was understood' })).toBeVisible();
};
/** Both clicks arrive before the page has changed. */
const twice = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).dblclick();
/** The first look, with all that goes wrong by hand: nothing chosen, two clicks, a way back. One file waits after it. */
const firstLook = async (page: Page, text: string, scripts: boolean) => {
  const field = page.locator('textarea[name="cells"]');
  await (scripts ? open(page, '/cases/bring-in') : page.goto('/cases/bring-in'));
  await press(page, 'Look at the cells');
  await expect(page.getByRole('alert')).toContainText('There are no cells here yet.');
  await (scripts ? open(page, '/cases/bring-in') : page.goto('/cases/bring-in'));
  await field.fill(text);
  await twice(page, 'Look at the cells');
  await expect(page.getByRole('heading', { name: 'What was understood' })).toBeVisible();
  await page.goBack();
  await expect(field).toHaveValue(text);
  await page.goForward();
  await expect(page.getByRole('heading', { name: 'What was understood' })).toBeVisible();
  const cases = await (await page.request.get('/cases')).text();
  expect(cases.match(/href="\/cases\/bring-in\/import-/g)).toHaveLength(1);
};
const again = (page: Page) => twice(page, 'Look again with these answers');
/** `null` while one page goes and the next comes: no expectation holds of that. */
const kinds = async (page: Page) => {
  const texts = await page
    .locator('button[name="show"]')
    .allInnerTexts()
    .catch(() => null);
  return (
    texts &&
    Object.fromEntries(
      texts.map((text) => {
        const [words = '', count = ''] = text.trim().split(': ');
        return [words, Number(count)];
      }),
    )
  );
};

for (const [where, width, javaScriptEnabled] of [
  ['on a desk', 1280, true],
  ['at 360 px without scripts', 360, false],
] as const)
  test.describe(`three files from outside, ${where}`, () => {
    test.use({ javaScriptEnabled, viewport: { width, height: 800 } });

    test.describe('messy and wide', () => {
      test.beforeAll(({ app }) => startWith(app, 'empty'));

      test('messy and wide: counts, list, ticks and button say the same, and are what is stored', async ({
        page,
        app,
      }) => {
        const file = messyWide();
        await firstLook(page, file.text, javaScriptEnabled);
        await expect(page.locator('main')).toContainText('everything under "Patient name"');
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
        await expect(page.locator('main')).not.toContainText('Smith');
        await expect(page.locator('main')).toContainText(
          `${file.emptyEvents} cases have an empty cell under "Complication"`,
        );
        await expect(page.locator('main')).toContainText(`${file.dashes} cases have a dash under "Complication"`);
        await expect
          .poll(() => kinds(page))
          .toMatchObject({
            'all rows': file.rows,
            'with a value left out': file.cheese,
            'left out whole': file.rowsOut,
          });
        await expect(page.getByRole('button', { name: /^Take / })).toHaveText(
          `Take ${file.cases} cases; ${file.rowsOut} rows named above stay out`,
        );
        await page.locator('input[name="plain-number"][value="minutes-seconds"]').check();
        await page.locator('input[name="event-empty"][value="none"]').check();
        await again(page);

        // Filters keep what was answered, and show as many rows as they say.
        await page.getByRole('button', { name: /^with a value left out:/ }).click();
        await expect(page.locator('#rows tbody tr:not(.why)')).toHaveCount(file.cheese);
        await expect(page.locator('input[name="event-empty"][value="none"]')).toBeChecked();
        await page.locator('select[name="value:nucleus:cheese"]').selectOption('soft');
        await again(page);
        await expect.poll(() => kinds(page)).not.toHaveProperty('with a value left out');

        // A row is left by its tick; with the take button pressed at once, the page shows it first.
        await page.getByRole('button', { name: /^all rows:/ }).click();
        await page.locator('input[name="row-taken"][value="3"]').uncheck();
        await twice(page, /^Take /);
        await expect(page.getByText('Your answers change what would be taken.')).toBeVisible();
        expect((await everythingOf(app)).cases).toEqual([]);
        await expect.poll(() => kinds(page)).toMatchObject({ 'left out whole': file.rowsOut + 1 });
        await page.goBack();
        await page.goForward();
        await expect(page.locator('input[name="row-taken"][value="3"]')).not.toBeChecked();

        await twice(page, `Take ${file.cases - 1} cases; ${file.rowsOut + 1} rows named above stay out`);
        await expect(page.getByText(`${file.cases - 1} cases were taken.`)).toBeVisible();
        const { cases } = await everythingOf(app);
        expect(cases.map(({ code }) => code)).not.toContain('M1');
        expect(cases).toHaveLength(file.cases - 1);
        const events = cases.filter(({ events: of }) => of?.length === 0).length;
        // M1 itself was answered with none.
        expect(events).toBe(file.none + file.dashes + file.emptyEvents - 1);
        const pupils = (level: string) => cases.filter(({ facts }) => facts['pupil'] === level).length;
        expect([pupils('small'), pupils('large')]).toEqual([file.small - 1, file.large]);
        expect(cases.find(({ code }) => code === 'M2')?.stretches[0]?.seconds).toBe(file.rhexisOfSecond);

        await twice(page, 'Undo: take the whole import back');
        await expect(page.getByText('The whole import was taken back.')).toBeVisible();
        expect((await everythingOf(app)).cases).toEqual([]);
      });
    });

    test.describe('long with blanks', () => {
      test.beforeAll(({ app }) => startWith(app, 'empty'));

      test('long with blanks: a page of rows at a time, each count the rows there are', async ({ page, app }) => {
        const file = longWithBlanks();
        await firstLook(page, file.text, javaScriptEnabled);
        await expect
          .poll(() => kinds(page))
          .toMatchObject({ 'all rows': file.rows, 'left out whole': file.blank + file.unknown });
        await expect(page.locator('#rows tbody tr:not(.why)')).toHaveCount(25);
        await expect(page.locator('#rows')).toContainText(`Rows 1 to 25 of ${file.rows}`);
        await press(page, 'Further rows');
        await expect(page.locator('#rows')).toContainText(`Rows 26 to 50 of ${file.rows}`);
        // A name no step has must be answered: its rows would be gone by a guess.
        await expect(page.getByRole('button', { name: /^Take / })).toHaveCount(0);
        const unknown = page.getByRole('combobox', { name: /known as "Ring in"/ });
        await unknown.selectOption('step:iol-insertion');
        await again(page);
        await expect.poll(() => kinds(page)).toMatchObject({ 'left out whole': file.blank });
        await expect(page.locator('#rows')).toContainText('Rows 26 to 50');
        await press(page, new RegExp(`^Take ${file.cases} cases; ${file.blank} rows named above stay out`));
        await expect(page.getByText(`${file.cases} cases were taken.`)).toBeVisible();
        const { cases } = await everythingOf(app);
        expect(cases.flatMap(({ stretches }) => stretches)).toHaveLength(file.rows - file.blank);
        expect(cases.every(({ events }) => events === null)).toBe(true);

        // The next file with these headings is read as this one was, which is said and can be forgotten.
        await look(page, file.text.replaceAll(/^L/gm, 'N'), javaScriptEnabled);
        await expect(page.locator('main')).toContainText('carried over from the last file with these headings.');
        await expect(page.locator('main')).toContainText('(as in the last file)');
        await expect.poll(() => kinds(page)).toMatchObject({ 'left out whole': file.blank });
        await page.locator('#remembered summary').click();
        await page.getByRole('button', { name: /^Forget Ring in: / }).click();
        await expect(page.getByRole('combobox', { name: /known as "Ring in"/ })).not.toHaveValue('step:iol-insertion');
        if (await page.locator('#remembered').count()) {
          await unfold(page, 'carried over from the last file with these headings');
          await press(page, /^Forget (it|them all)$/);
        }
        await expect(page.locator('main')).not.toContainText('carried over from the last file with these headings.');
        await expect.poll(() => kinds(page)).toMatchObject({ 'left out whole': file.blank + file.unknown });
      });
    });

    test.describe('in German', () => {
      test.beforeAll(({ app }) => startWith(app, 'empty'));

      test('in German, from a workbook or its cells: read in its own words', async ({ page, app }) => {
        const file = germanWorkbook();
        if (javaScriptEnabled) {
          await open(page, '/cases/bring-in');
          await page.locator('input[type="file"]').setInputFiles({
            name: 'zeiten.xlsx',
            mimeType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
            buffer: file.file,
          });
          await expect(page.getByLabel(`Zeiten (${file.rows + 1} rows)`)).toBeChecked();
          await press(page, 'Look at what you chose');
        } else await firstLook(page, file.text, false);
        await expect(page.getByRole('button', { name: /^Take / })).toHaveText(
          `Take ${file.cases} cases; 1 row named above stays out`,
        );
        await expect.poll(() => kinds(page)).toMatchObject({ 'all rows': file.rows, 'left out whole': 1 });
        await twice(page, /^Take /);
        await expect(page.getByText(`${file.cases} cases were taken.`)).toBeVisible();
        const { cases } = await everythingOf(app);
        expect(cases.map(({ events }) => events?.map(({ kind }) => kind) ?? null).filter((of) => of?.length)).toEqual([
          ['posterior-capsule-tear'],
        ]);
        const count = (fact: string, level: string) => cases.filter(({ facts }) => facts[fact] === level).length;
        expect([count('pupil', 'small'), count('nucleus', 'white')]).toEqual([file.small, file.white]);

        // A second file in a record with own cases: whose it is must be said, and a refused form keeps the answers.
        await look(page, file.text.replaceAll('G', 'H').replaceAll('\t7', '\t6'), javaScriptEnabled);
        await expect(page.locator('input[name="whose"]:checked')).toHaveCount(0);
        await expect(page.getByText('Say first whose times these are.')).toBeVisible();
        await page.locator('input[name="whose"][value="reference"]').check();
        await again(page);
        await expect(page.locator('input[name="agreed"]')).not.toBeChecked();
        await expect(page.locator('input[name="whose"][value="reference"]')).toBeChecked();
        await expect(page.getByText('Say first that the surgeons agreed')).toBeVisible();
        expect((await everythingOf(app)).cases).toHaveLength(file.cases);
      });
    });
  });

test.describe('100,000 stretches', () => {
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  test('come in with progress, can be stopped, and keep nobody waiting', async ({ page, app, context }) => {
    test.setTimeout(180_000);
    const rows = Array.from(
      { length: 100_000 },
      (_, n) =>
        `K${Math.floor(n / 4)},${['Side port', 'Rhexis', 'Hydrodissection', 'Wound check'][n % 4] ?? ''},${30 + (n % 50)}`,
    );
    const file = {
      name: 'large.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(['case_id,step,seconds', ...rows].join('\n')),
    };
    await open(page, '/cases/bring-in');
    await page.locator('input[name="file"]').setInputFiles(file);
    await press(page, 'Look at what you chose');
    await page.getByRole('button', { name: 'Stop' }).click();
    await expect(page.getByText('Stopped. Nothing was stored')).toBeVisible();

    // How far it is was seen, whatever the machine's speed: every share that was said is kept.
    await page.evaluate(() => {
      const seen: string[] = [];
      Object.assign(window, { seen });
      new MutationObserver(() => {
        const text = document.querySelector('progress')?.parentElement?.textContent;
        if (text) seen.push(text.trim());
      }).observe(document.body, { subtree: true, childList: true, characterData: true });
    });
    await press(page, 'Look at what you chose');
    // Others are answered meanwhile, and the page itself can be used.
    const other = await context.newPage();
    await other.goto('/settings');
    await expect(other.getByRole('heading', { name: 'Reference sets' })).toBeVisible();
    await page.getByText('Which tables can be read').click();
    await expect(page.getByRole('heading', { name: 'What was understood' })).toBeVisible({ timeout: 120_000 });
    const seen = await page.evaluate(() => (window as unknown as { seen: string[] }).seen);
    expect(seen.some((text) => /^Reading: [1-9]\d? %/.test(text))).toBe(true);
    await expect(page.locator('main')).toContainText('25,000 cases: 25,000 new');
    expect((await everythingOf(app)).cases).toEqual([]);
  });
});
