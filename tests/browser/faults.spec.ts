import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright/test';
import type { App } from './app';
import { expect, test } from './fixture';
import { open } from './open';
import { startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

const logOf = (app: App) => readFile(join(app.folder, 'faults.log'), 'utf8').catch(() => '');

/** What is on the page of a fault: its number, and the rest of the program about it. */
async function numberOn(page: Page): Promise<string> {
  const told = page.locator('main').getByText(/number [0-9a-f]{8}/);
  await expect(told).toBeVisible();
  return /number ([0-9a-f]{8})/.exec((await told.textContent()) ?? '')?.[1] ?? '';
}

/** Its number stands in the log in the folder and in Settings, with no word of what was on the page; the other rooms work. */
async function keptAs(id: string, page: Page, app: App): Promise<void> {
  await expect.poll(() => logOf(app)).toContain(id);
  const log = await logOf(app);
  expect(log).not.toMatch(/Mrs|K-4711|127\.0\.0\.1/);
  await page.unroute('**/choose/__data.json*');
  await page.getByRole('link', { name: 'Cases', exact: true }).first().click();
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await expect(page).toHaveURL(/\/cases/);
  await page.goto('/settings/faults');
  await expect(page.getByText(id)).toBeVisible();
}

const toChoose = (page: Page) => page.getByRole('link', { name: 'Choose', exact: true }).first().click();

test('data that does not arrive whole leads to the page all the same', async ({ page }) => {
  await open(page, '/cases');
  await page.route('**/choose/__data.json*', (route) =>
    route.fulfill({ contentType: 'application/json', body: 'Mrs K-4711 is no data' }),
  );
  await toChoose(page);
  await expect(page).toHaveURL(/\/choose$/);
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('Something went wrong');
});

test('an error while a page is drawn leaves what is round it, and is told in the same way', async ({ page, app }) => {
  await open(page, '/cases');
  await page.route('**/choose/__data.json*', async (route) => {
    const answer = await route.fetch();
    const { nodes, ...rest } = (await answer.json()) as { nodes: unknown[] };
    const empty = { type: 'data', data: [{ view: 1 }, 'Mrs K-4711'], uses: {} };
    await route.fulfill({ json: { ...rest, nodes: [...nodes.slice(0, -1), empty] } });
  });
  await toChoose(page);
  const id = await numberOn(page);
  await expect(page.getByRole('navigation').first()).toBeVisible();
  await keptAs(id, page, app);
  for (const line of (await logOf(app)).trim().split('\n'))
    expect(JSON.parse(line)).toMatchObject({ where: expect.stringContaining('(browser)') });
});

test('the log goes when it is deleted in Settings', async ({ page, app }) => {
  await open(page, '/settings/faults');
  await page.getByRole('button', { name: 'Delete this log' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('No fault has been seen.');
  expect(await logOf(app)).toBe('');
});
