import { durationIn } from '../../src/lib/words/note-durations';
import { expect, test } from './fixture';
import { printed } from './paper';
import { post, startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

test('the sheet for a mentor: one side of A4, codes, no time, no date', async ({ page, app }) => {
  await post(app, '/after-twenty/goal-2/mentor?/begin', {});
  await page.goto('/after-twenty/goal-2/mentor');
  const sheet = page.locator('article');
  await expect(sheet.getByRole('heading', { name: 'Cortex aspiration, looked at together' })).toBeVisible();
  await expect(sheet.locator('tbody tr')).toHaveCount(6);
  await expect(sheet.getByText(/^Watch this step in: F\d+ · F\d+ · F\d+/)).toBeVisible();
  const text = await page.locator('main').innerText();
  expect(durationIn(text)).toBeNull();
  expect(text).not.toMatch(/\b20\d\d\b|score|\d of \d/i);
  expect(await printed(page)).toEqual({ sides: 1, width: 210, height: 297 });
});

test('the practice month on Now names its week, and no time of any operation', async ({ page }) => {
  await page.goto('/');
  const practice = page.locator('section', { has: page.getByRole('heading', { name: /^The practice month on/ }) });
  await expect(practice.getByText(/^Week \d+ since the goal was set/)).toBeVisible();
  await expect(practice.locator('li[aria-current="step"]')).toHaveCount(1);
  await practice
    .getByRole('button', { name: /^Passed: log it/ })
    .first()
    .click();
  await expect(practice.getByText('Logged once.')).toBeVisible();
  // The audit behind that page takes its time the first time it is asked for.
  const pair = practice.getByRole('link', { name: 'the two recordings of the pair' });
  await page.goto((await pair.getAttribute('href')) ?? '');
  await expect(page.getByRole('heading', { name: 'What was different just before the two diverged?' })).toBeVisible();
});
