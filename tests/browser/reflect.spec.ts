import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { open } from './open';
import { everythingOf, startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

/** Goes on with the Tab key until what is wanted has the keyboard. */
async function tabTo(page: Page, wanted: (focused: { name: string; text: string; id: string }) => boolean) {
  for (let tabs = 0; tabs < 120; tabs++) {
    await page.keyboard.press('Tab');
    const focused = await page.evaluate(() => {
      const at = document.activeElement;
      return { name: at?.getAttribute('name') ?? '', text: at?.textContent?.trim() ?? '', id: at?.id ?? '' };
    });
    if (wanted(focused)) return;
  }
  throw new Error('The Tab key never came there.');
}

test('a note by keyboard alone: kept on a pause, warned about, stored, found', async ({ page, app }) => {
  const { reflections } = await everythingOf(app);
  await open(page, '/reflect');
  await tabTo(page, ({ text }) => text === 'Write about these');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'What was done' })).toBeVisible();

  await tabTo(page, ({ name }) => name.startsWith('answer:'));
  await page.keyboard.press('ArrowDown');
  await tabTo(page, ({ name }) => name === 'saw');
  await page.keyboard.type('Mr Smith blinked less with a drop more.');
  await expect(page.getByRole('status')).toHaveText('Draft kept.');
  expect((await everythingOf(app)).reflections).toHaveLength(reflections.length);

  await tabTo(page, ({ text }) => text === 'Store');
  await page.keyboard.press('Enter');
  const alert = page.getByRole('alert');
  await expect(alert).toContainText('"Mr Smith" looks like a name');
  await expect(alert).toBeFocused();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect(page.locator('input[name="nobody"]')).toBeFocused();

  await page.locator('textarea[name="saw"]').focus();
  await page.keyboard.press('ControlOrMeta+A');
  await page.keyboard.type('The eye was still with a drop more.');
  await tabTo(page, ({ text }) => text === 'Store');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Your note is stored.')).toBeVisible();
  const [latest] = (await everythingOf(app)).reflections.filter(({ id }) => !reflections.some((one) => one.id === id));
  expect(latest).toMatchObject({ saw: 'The eye was still with a drop more.', beforeLengths: true, answers: [{}] });

  // Sent within the second of the last key: the draft of it must not come back afterwards.
  await page.waitForTimeout(1500);
  await open(page, '/reflect');
  await expect(page.getByText('Go on with your draft')).toHaveCount(0);
  await expect(page.locator('input[name="word"]')).toBeHidden();
  await tabTo(page, ({ text }) => text === 'Find a note');
  await page.keyboard.press('Enter');
  await tabTo(page, ({ name }) => name === 'word');
  await page.keyboard.type('drop more');
  await page.keyboard.press('Enter');
  await expect(page.locator('main article')).toHaveCount(1);
  await expect(page.locator('input[name="word"]')).toBeVisible();
});

test('what was typed is kept when another room is opened before the pause is over', async ({ page }) => {
  await open(page, '/reflect/new');
  await page.locator('textarea[name="saw"]').fill('The cannula stayed off the iris.');
  const kept = page.waitForResponse((answer) => answer.url().includes('?/draft'));
  await page.getByRole('link', { name: 'Cases', exact: true }).first().click();
  await expect(page.getByRole('heading', { name: 'Cases', exact: true })).toBeVisible();
  expect((await kept).ok()).toBe(true);
  await open(page, '/reflect/new');
  await expect(page.getByText('What you write here takes its place.')).toBeVisible();
  await page.getByRole('link', { name: 'go on with your draft' }).click();
  await expect(page.locator('textarea[name="saw"]')).toHaveValue('The cannula stayed off the iris.');
});

test('the latest list is ticked, and on a phone the notes come before the search', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 800 });
  await open(page, '/reflect');
  const fieldsets = page.locator('main fieldset');
  const ticked = await fieldsets.evaluateAll((all) =>
    all.map((one) => [...one.querySelectorAll('input')].filter((box) => box.checked).length),
  );
  expect(ticked.length).toBeGreaterThan(0);
  expect(ticked.slice(1)).toEqual(ticked.slice(1).map(() => 0));
  const boxOf = async (selector: string) => (await page.locator(selector).first().boundingBox())?.y ?? 0;
  const [heading, note] = [await boxOf('main section h2'), await boxOf('main article')];
  expect(note - heading).toBeLessThan(160);
});
