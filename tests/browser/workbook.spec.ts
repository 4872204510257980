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

  test('is read in the browser, a sheet chosen, and taken like any file', async ({ page, app }) => {
    await open(page, '/cases/bring-in');
    const file = asFile(workbook({ 'Read me': [['Nothing here']], Times: TIMES }));
    await page.locator('input[type="file"]').setInputFiles(file);
    await page.locator('select').selectOption({ label: 'Times (3 rows)' });
    await page.getByRole('button', { name: 'Look at the file' }).click();
    await expect(page.locator('main')).toContainText('times.xlsx');
    await page.getByRole('button', { name: 'Take 2 cases' }).click();
    await expect(page.getByText('2 cases were taken.')).toBeVisible();
    const { cases } = await everythingOf(app);
    const seconds = cases.map(({ code, stretches }) => [code, ...stretches.map((stretch) => stretch.seconds)]);
    expect(seconds).toEqual([
      ['A1', 61.5, 30, 50],
      ['A2', 75, 44],
    ]);
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
