import { expect, test } from './fixture';
import { everythingOf, startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

const RUN = '/after-twenty/goal-1';

test('in forced colours only the room one is in is underlined', async ({ page }) => {
  await page.emulateMedia({ forcedColors: 'active' });
  await page.goto('/choose');
  const lines = await page
    .getByRole('navigation')
    .locator('ul a')
    .evaluateAll((links) =>
      links.map((link) => [link.textContent?.trim(), getComputedStyle(link).borderBottomWidth] as const),
    );
  expect(lines.length).toBeGreaterThanOrEqual(9);
  expect(lines.filter(([, width]) => width !== '0px').map(([name]) => name)).toEqual(['Choose']);
});

test('the sliders of a page differ by name, and no id stands twice', async ({ page }) => {
  for (const path of [RUN, '/choose', '/choose/capsulorhexis', '/cases']) {
    await page.goto(path, { waitUntil: 'networkidle' });
    const names = await page
      .getByRole('slider')
      .evaluateAll((all) => all.map((each) => each.getAttribute('aria-label')));
    if (path === RUN) expect(names.length).toBeGreaterThan(5);
    expect.soft(new Set(names).size, path).toBe(names.length);
    const ids = await page.locator('[id]').evaluateAll((all) => all.map(({ id }) => id));
    expect
      .soft(
        ids.filter((id, at) => ids.indexOf(id) !== at),
        path,
      )
      .toEqual([]);
  }
});

test('a row with an error keeps its fields in their columns', async ({ page, app }) => {
  await page.setViewportSize({ width: 1280, height: 900 });
  const { lists } = await everythingOf(app);
  await page.goto(`/cases/lists/${lists.at(-1)?.id}`, { waitUntil: 'networkidle' });
  const rows = page.getByRole('group', { name: /^Case / });
  const places = () =>
    rows.first().evaluate((row) => [...row.querySelectorAll('.cell')].map((cell) => cell.getBoundingClientRect().left));
  const before = await places();
  expect(before.length).toBeGreaterThan(4);
  // An event without its kind.
  await rows.first().locator('input[type="radio"][name$=".events"]:not([value="none"])').check({ force: true });
  await page.getByRole('button', { name: 'Store the list' }).click();
  await expect(page.getByRole('alert')).toBeVisible();
  expect(await places()).toEqual(before);
});

test.describe('without scripts', () => {
  test.use({ javaScriptEnabled: false });

  test('no button stands there that could not print', async ({ page }) => {
    for (const path of ['/before-a-list', '/report', '/cases/list-sheet']) {
      await page.goto(path);
      await expect(page.getByRole('button', { name: 'Print', exact: true }), path).toHaveCount(0);
    }
  });
});
