import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { press } from './forms';
import { printed } from './paper';
import { open } from './open';
import { everythingOf, startWith } from './records';

for (const javaScriptEnabled of [true, false])
  test.describe(javaScriptEnabled ? 'with scripts' : 'without scripts', () => {
    test.use({ javaScriptEnabled });
    test.beforeAll(({ app }) => startWith(app, 'empty'));
    // What is typed before the scripts run may be lost to them.
    const go = (page: Page, path: string) => (javaScriptEnabled ? open(page, path) : page.goto(path));

    test('the sheet of a list goes out, comes back filled in, and is taken back', async ({ page, app }) => {
      const cases = async () => (await everythingOf(app)).cases;

      await go(page, '/cases/lists/new');
      await page.locator('input[name="when"]').fill('2026-11-24');
      await page.locator('input[name="count"]').fill('3');
      await page.locator('input[name="first"]').fill('S01');
      await press(page, 'Make the list');
      await expect(page.getByText('The list is ready.')).toBeVisible();

      const link = page.getByRole('link', { name: 'This list as a sheet to fill in (CSV)' });
      const sheet = await (await page.request.get((await link.getAttribute('href')) ?? '')).text();
      const [headings, ...rows] = sheet.trim().split('\n');
      expect(headings).toMatch(/^Place,Own code,.*Anything else,Hands,Event,List,Date,Procedure$/);
      expect(rows.map((row) => row.split(',').slice(0, 2))).toEqual([
        ['1', 'S01'],
        ['2', 'S02'],
        ['3', 'S03'],
      ]);
      const filled = [
        headings,
        '1,S01,3,S,Y,F,O,0',
        '2,S02,2,L,Y,0,B capsulorhexis,E iris prolapse',
        rows[2],
        '4,S09,2,L,Y,0,M,0',
      ];
      expect(rows[2]).toMatch(/,2026-11-24,phaco$/);

      await go(page, '/cases/bring-in');
      const file = { name: 'sheet.csv', mimeType: 'text/csv', buffer: Buffer.from(filled.join('\n')) };
      await page.locator('input[type="file"]').setInputFiles(file);
      await press(page, 'Look at what you chose');
      const main = page.locator('main');
      await expect(main).toContainText('Read as a list sheet, one row a case and no times');
      await expect(main).toContainText('2 cases in the record get what was not entered before');
      await expect(main).toContainText('Nucleus: not entered → hard');
      await expect(main).toContainText('Nothing is filled in on this row');
      await expect(main).toContainText('1 new case goes to a list of the record: 24 November 2026.');
      await expect(main).not.toContainText('Which way do the rows run?');
      await expect(main.locator('fieldset').filter({ hasText: 'Which procedure' })).toHaveCount(0);
      const take = 'Take 1 case and fill in or replace 2 cases of the record; 1 row named above stays out';
      await press(page, take);
      await expect(
        page.getByText('1 case was taken and 2 cases of the record were filled in or replaced.'),
      ).toBeVisible();

      expect(await cases()).toMatchObject([
        { code: 'S01', facts: { nucleus: 'hard', pupil: 'small' }, events: [], factChanges: [], stretches: [] },
        {
          code: 'S02',
          hands: { whole: 'mine', steps: { capsulorhexis: 'someone-else' } },
          events: [{ kind: 'iris-prolapse' }],
        },
        { code: 'S03', facts: {}, events: null },
        { code: 'S09', facts: { nucleus: 'medium' }, events: [], position: 4 },
      ]);
      const { cases: all, lists } = await everythingOf(app);
      expect(lists).toHaveLength(1);
      expect(new Set(all.map(({ listId }) => listId))).toEqual(new Set([lists[0]?.id]));

      // On the page of a case it stands as entered, and its undo is that of the whole import.
      const back = page.url();
      await page.goto(`/cases/${(await cases())[1]?.id}`);
      await expect(main.locator('dl')).toContainText(/Nucleus\s*medium/);
      await expect(main).toContainText('Capsulorhexis: someone else');
      await expect(main).toContainText('iris prolapse');
      await expect(page.locator('#history')).toContainText('The last of these came with sheet.csv.');
      await expect(page.getByRole('button', { name: 'Undo this change' })).toHaveCount(0);
      await page.goto(back);

      await press(page, 'Undo: take the whole import back');
      await expect(page.getByText('The whole import was taken back.')).toBeVisible();
      expect((await cases()).map(({ facts, events }) => [facts, events])).toEqual(Array(3).fill([{}, null]));
    });

    test('the empty sheet has no column for a time', async ({ page }) => {
      await page.goto('/cases/list-sheet?rows=40');
      const link = page.getByRole('link', { name: 'The same as a CSV to fill in' });
      const text = await (await page.request.get((await link.getAttribute('href')) ?? '')).text();
      expect(text.trim().split('\n')).toHaveLength(41);
      expect(text).not.toMatch(/seconds|minutes|time/i);
    });
  });

const MILLIMETRE = 96 / 25.4;
/** A4 without the margins a browser leaves. */
const PAPER = Math.round(189 * MILLIMETRE);

for (const [rows, sides] of [
  [20, 1],
  [25, 1],
  [40, 2],
] as const)
  test(`${rows} rows on paper: each at least 7 mm high, on ${sides} of A4, and as many again for times`, async ({
    page,
  }) => {
    await page.goto(`/cases/list-sheet?rows=${rows}&times=yes`);
    await page.setViewportSize({ width: PAPER, height: 1000 });
    await page.emulateMedia({ media: 'print' });
    const heights = await page
      .locator('.sheet:first-of-type tbody tr')
      .evaluateAll((all) => all.map((row) => row.getBoundingClientRect().height));
    expect(heights).toHaveLength(rows);
    // Wider than the paper it would be printed smaller, rows and all.
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PAPER);
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(7 * MILLIMETRE);
    expect(await printed(page)).toEqual({ sides: 2 * sides, width: 210, height: 297 });
    await expect(page.locator('#times')).toContainText('not scrubbed');
    await expect(page.locator('#times')).toContainText('Use after surgery, never in theatre.');
    await page.goto(`/cases/list-sheet?rows=${rows}`);
    await expect(page.locator('#times')).toHaveCount(0);
    expect((await printed(page)).sides).toBe(sides);
  });
