import { expect, test } from './fixture';
import { open } from './open';
import { everythingOf, startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

/** The server killed, and started again where the page expects it. */
const again = async (app: { origin: string; run: (port?: string) => Promise<void> }) =>
  app.run(new URL(app.origin).port);

test('a form whose server is gone keeps what was typed, says so, and stores it on the next press', async ({
  page,
  app,
}) => {
  await open(page, '/settings');
  const before = (await everythingOf(app)).profile.seriousRate;
  await page.getByText('Set another rate, with its source').click();
  const form = page.locator('form[action="?/rate"]');
  await form.locator('input[type="text"]').first().fill('3');
  await form.locator('input[type="text"]').nth(1).fill('our own audit');
  await app.stop('SIGKILL');
  await form.getByRole('button').first().click();
  await expect(form.getByRole('alert')).toContainText('what you entered is still here.');
  await expect(form.getByRole('alert')).toBeFocused();
  await expect(form.locator('input[type="text"]').first()).toHaveValue('3');
  await again(app);
  expect((await everythingOf(app)).profile.seriousRate).toEqual(before);
  await form.getByRole('button').first().click();
  await expect(page.getByText('Stored.')).toBeVisible();
  expect((await everythingOf(app)).profile.seriousRate).toMatchObject({ source: 'our own audit' });
});

test('a note outlives a server that is gone, even where the page is opened anew', async ({ page, app }) => {
  const { reflections } = await everythingOf(app);
  await open(page, '/reflect/new');
  await app.stop('SIGKILL');
  await page.locator('textarea[name="saw"]').fill('The edge was held once more near its end.');
  await page.getByRole('button', { name: 'Store', exact: true }).click();
  await expect(page.getByRole('alert').filter({ hasText: 'still here' })).toBeVisible();
  await expect(page.locator('textarea[name="saw"]')).toHaveValue('The edge was held once more near its end.');
  await again(app);
  await page.reload();
  await expect(page.locator('textarea[name="saw"]')).toHaveValue('The edge was held once more near its end.');
  await expect(page.getByText('it has not been stored yet')).toBeVisible();
  await page.getByRole('button', { name: 'Store', exact: true }).click();
  await expect(page).toHaveURL(/\/reflect(\?|$)/);
  const stored = (await everythingOf(app)).reflections;
  expect(stored).toHaveLength(reflections.length + 1);
  expect(stored.at(-1)?.saw).toBe('The edge was held once more near its end.');
  await open(page, '/reflect/new');
  await expect(page.locator('textarea[name="saw"]')).toHaveValue('');
});
