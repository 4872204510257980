import { expect, test } from './fixture';
import { open, openedSlowly } from './open';
import { everythingOf, startWith } from './records';
import { workbook } from './workbook';

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
const TIMES = [
  ['case_id', 'procedure', 'event', 'capsulorhexis', 'hydrodissection', 'cortex aspiration'],
  ['A1', 'phaco', 'none', 61.5, 30, 50],
  ['A2', 'phaco', 'none', 75, null, 44],
];
const asFile = (buffer: Buffer, name = 'times.xlsx') => ({ name, mimeType: XLSX, buffer });

test.describe('a workbook', () => {
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  test('is read in the browser, opens on the sheet with times, and is taken like any file', async ({ page, app }) => {
    await open(page, '/cases/bring-in');
    const file = asFile(workbook({ 'Read me': [['Nothing here']], Times: TIMES }));
    await page.locator('input[type="file"]').setInputFiles(file);
    await expect(page.getByLabel('Times (3 rows)')).toBeChecked();
    await expect(page.getByLabel('Read me (1 row)')).not.toBeChecked();
    await page.getByRole('button', { name: 'Look at what you chose' }).click();
    await expect(page.locator('main')).toContainText('times.xlsx');
    await page.getByRole('button', { name: 'Take 2 cases' }).click();
    await expect(page.getByText('2 cases were taken.')).toBeVisible();
    const { cases } = await everythingOf(app);
    const seconds = cases.map(({ code, stretches }) => [code, ...stretches.map((stretch) => stretch.seconds)]);
    expect(seconds).toEqual([
      ['A1', 61.5, 30, 50],
      ['A2', 75, 44],
    ]);

    // The sheet is remembered for the next workbook, said so, and forgotten on wish.
    await open(page, '/cases/bring-in');
    const next = workbook({ Times: TIMES.slice(0, 2), More: [...TIMES, ...TIMES.slice(1)] });
    await page.locator('input[type="file"]').setInputFiles(asFile(next));
    await expect(page.getByText('times.xlsx: ticked as in the last workbook')).toBeVisible();
    await expect(page.getByLabel('Times (2 rows)')).toBeChecked();
    await expect(page.getByLabel('More (5 rows)')).not.toBeChecked();
    await page.getByRole('button', { name: 'Forget these sheets' }).click();
    await expect(page.getByRole('button', { name: 'Forget these sheets' })).toHaveCount(0);
    await page.locator('input[type="file"]').setInputFiles(asFile(next));
    await expect(page.getByText('times.xlsx: the sheet that looks like times is ticked')).toBeVisible();
  });

  test('and a file beside it are parts of one record, looked at one after the other', async ({ page, app }) => {
    await open(page, '/cases/bring-in');
    const again = [TIMES[0] ?? [], ['A1', 'phaco', 'none', 61.5, 30, 50], ['A3', 'phaco', 'none', 58, 28, 47]];
    await page
      .locator('input[type="file"]')
      .setInputFiles([
        asFile(workbook({ March: TIMES.slice(0, 2), April: again }), 'year.xlsx'),
        { name: 'facts.csv', mimeType: 'text/csv', buffer: Buffer.from('case_id,nucleus,capsulorhexis\nA3,hard,58\n') },
      ]);
    await page.getByLabel('March (2 rows)').check();
    await expect(page.getByText('These 3 are parts of one record')).toBeVisible();
    await page.getByRole('button', { name: 'Look at what you chose' }).click();
    await expect(page.locator('main')).toContainText('Part 1 of 3 of one record');
    await page.getByRole('button', { name: 'Discard this file; nothing is stored' }).click();
    await expect(page.locator('main')).toContainText('Part 2 of 3 of one record');
    await page.getByRole('button', { name: 'Discard this file; nothing is stored' }).click();
    await expect(page.locator('main')).toContainText('Part 3 of 3 of one record');
    await page.getByRole('button', { name: 'Take 1 case' }).click();
    await expect(page.getByText('1 case was taken.')).toBeVisible();
    const { cases } = await everythingOf(app);
    expect(cases.map(({ code }) => code)).toEqual(['A1', 'A2', 'A3']);
  });

  test('chosen before the scripts of the page run is read once they do', async ({ page }) => {
    const { run } = await openedSlowly(page, '/cases/bring-in');
    await page.locator('input[type="file"]').setInputFiles(asFile(workbook({ Times: TIMES })));
    await run();
    await expect(page.getByText('times.xlsx: 3 rows read.')).toBeVisible();
  });

  test('that is none is said so, with what to do instead', async ({ page }) => {
    await open(page, '/cases/bring-in');
    await page.locator('input[type="file"]').setInputFiles(asFile(Buffer.from('PK but no more'), 'torn.xlsx'));
    await expect(page.getByText('Save the sheet as CSV and choose that file, or paste its cells.')).toBeVisible();
  });
});
