import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { open } from './open';
import { printed } from './paper';
import { startWith } from './records';

test.use({ serviceWorkers: 'allow' });

const KEPT = 'Kept on this device: it opens without a network.';

/** A figure with a unit of time, or a clock reading. */
const DURATION = /\d\s*(?:s|secs?|seconds?|m|mins?|minutes?|h|hours?)\b|\d:\d\d/i;

const textOf = (page: Page) => page.locator('body').innerText();

async function readsAsTheNote(page: Page): Promise<void> {
  await expect(page.getByRole('heading', { name: 'Cortex aspiration', exact: true })).toBeVisible();
  await expect(page.locator('main ol li')).toHaveCount(3);
  await expect(page.getByText('If the port is not in view, then I let go and find it first.')).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Stop when' })).toBeVisible();
  await expect(page.getByText('Not the team brief.')).toBeVisible();
}

test.describe('with a goal', () => {
  test.beforeAll(({ app }) => startWith(app, 'fellow'));

  test('the note holds words and drawings of the eye: no duration, no chart', async ({ page }) => {
    await page.goto('/before-a-list');
    await readsAsTheNote(page);
    expect(await textOf(page)).not.toMatch(DURATION);
    // A drawing of the eye stands in a box of its own, and says nothing of times.
    await expect(page.locator('main svg')).toHaveCount(await page.locator('main .scene .drawing svg').count());
    await expect(page.locator('main figure.chart')).toHaveCount(0);
  });

  test('the note fits one phone screen', async ({ page }) => {
    await page.setViewportSize({ width: 360, height: 800 });
    await page.goto('/before-a-list');
    const note = await page.locator('article').boundingBox();
    expect(note?.height).toBeLessThanOrEqual(800);
  });

  test('opens without a network after a first visit straight to it', async ({ page, context }) => {
    await page.goto('/before-a-list');
    await page.getByText(KEPT).waitFor();
    await context.setOffline(true);
    await page.goto('/before-a-list');
    await readsAsTheNote(page);
  });

  test('opens without a network after it was reached by a link', async ({ page, context }) => {
    await open(page, '/');
    await page.getByRole('link', { name: 'Before a list' }).first().click();
    await page.getByText(KEPT).waitFor();
    await context.setOffline(true);
    await page.goto('/before-a-list');
    await readsAsTheNote(page);
  });

  test('opens by a link while the network is cut, and after a reload', async ({ page, context }) => {
    await page.goto('/before-a-list');
    await page.getByText(KEPT).waitFor();
    await open(page, '/');
    await context.setOffline(true);
    await page.getByRole('link', { name: 'Before a list' }).first().click();
    await readsAsTheNote(page);
    await page.reload();
    await readsAsTheNote(page);
  });

  test('nothing else of the record is kept by the browser', async ({ page, context }) => {
    await page.goto('/before-a-list');
    await page.getByText(KEPT).waitFor();
    await page.goto('/cases');
    const kept = await page.evaluate(async () => {
      const addresses: string[] = [];
      for (const name of await caches.keys())
        for (const { url } of await (await caches.open(name)).keys()) addresses.push(new URL(url).pathname);
      return addresses.filter((path) => !path.startsWith('/_app/') && !/\.(svg|png|ico|txt|webmanifest)$/.test(path));
    });
    expect(kept.sort()).toEqual(['/before-a-list', '/before-a-list/__data.json']);
    await context.setOffline(true);
    await expect(page.goto('/cases')).rejects.toThrow('ERR_INTERNET_DISCONNECTED');
  });

  test('prints on one A5 side, in larger type too', async ({ page }) => {
    await page.goto('/before-a-list');
    expect(await printed(page)).toEqual({ sides: 1, width: 148, height: 210 });
    await page.getByRole('button', { name: 'Larger type' }).click();
    await page.getByRole('button', { name: 'Smaller type' }).waitFor();
    expect(await printed(page)).toEqual({ sides: 1, width: 148, height: 210 });
  });

  // Last here: the record has another goal from now on.
  test('two goals are two notes, a side each', async ({ page }) => {
    await page.goto('/plan?step=iol-insertion');
    await page.getByLabel('Yes', { exact: true }).check();
    await page.getByRole('button', { name: 'Set the goal' }).click();
    await expect(page.getByText('The goal is set, and its terms are fixed.')).toBeVisible();
    await page.goto('/before-a-list');
    await expect(page.locator('article h2')).toHaveText(['Cortex aspiration', 'Lens insertion']);
    expect(await textOf(page)).not.toMatch(DURATION);
    expect(await printed(page)).toEqual({ sides: 2, width: 148, height: 210 });
  });
});

test.describe('without a goal', () => {
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  test('the general note: three things, no duration, one A5 side', async ({ page }) => {
    await page.goto('/before-a-list');
    await expect(page.getByText('three things to keep in mind on any list')).toBeVisible();
    await expect(page.locator('article li')).toHaveCount(3);
    expect(await textOf(page)).not.toMatch(DURATION);
    expect(await printed(page)).toEqual({ sides: 1, width: 148, height: 210 });
  });
});
