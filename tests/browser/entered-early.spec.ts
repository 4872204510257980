import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { openedSlowly } from './open';
import { everythingOf, startWith } from './records';

declare global {
  interface Window {
    enteredIn?: (HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement)[];
  }
}

/** Puts something new into every field of the page. @returns what each holds then */
const enterEverywhere = (page: Page) =>
  page.evaluate(() => {
    const typed: Record<string, string> = { date: '2026-11-02', month: '2026-11', number: '7', time: '09:30' };
    window.enteredIn = [
      ...document.querySelectorAll<NonNullable<Window['enteredIn']>[number]>('main input, main textarea, main select'),
    ].filter(({ type }) => !['hidden', 'file', 'submit'].includes(type));
    for (const field of window.enteredIn)
      if (field instanceof HTMLSelectElement) field.selectedIndex = field.options.length - 1;
      else if (field instanceof HTMLInputElement && /checkbox|radio/.test(field.type)) field.checked = !field.checked;
      else field.value = typed[field.type] ?? 'entered';
    return window.enteredIn.map((field) => `${field.name}: ${field.value} ${'checked' in field && field.checked}`);
  });

/** What the same fields hold now, as long as they are still those of the page. */
const heldNow = (page: Page) =>
  page.evaluate(() =>
    (window.enteredIn ?? [])
      .filter(({ isConnected }) => isConnected)
      .map((field) => `${field.name}: ${field.value} ${'checked' in field && field.checked}`),
  );

test.describe('what is entered before the scripts of a page run stays', () => {
  test.describe('with a record', () => {
    test.beforeAll(({ app }) => startWith(app, 'fellow'));

    test('an answer chosen on Plan, and the goal can be set', async ({ page }) => {
      const { run } = await openedSlowly(page, '/plan?step=iol-insertion');
      await page.getByLabel('Yes', { exact: true }).check();
      await run();
      await expect(page.getByLabel('Yes', { exact: true })).toBeChecked();
      await page.getByRole('button', { name: 'Set the goal' }).click();
      await expect(page.getByText('The goal is set, and its terms are fixed.')).toBeVisible();
    });

    for (const path of ['/cases/lists/new', '/cases/new', '/reflect/new', '/settings', '/report', '/reflect', '/cases'])
      test(`every field of ${path}`, async ({ page }) => {
        const { run } = await openedSlowly(page, path);
        const entered = await enterEverywhere(page);
        expect(entered.length).toBeGreaterThan(0);
        await run();
        expect(await heldNow(page)).toEqual(entered);
      });

    for (const width of [360, 1440])
      test(`answers for a case on its list, ${width} px wide`, async ({ page, app }) => {
        await page.setViewportSize({ width, height: 900 });
        const { lists, cases } = await everythingOf(app);
        const list = lists.at(-1);
        const code = cases.find(({ listId }) => listId === list?.id)?.code ?? '';
        const { run } = await openedSlowly(page, `/cases/lists/${list?.id}`);
        const row = page.getByRole('group', { name: `Case ${code}` });
        const answers = {
          hands: 'taken-over',
          events: 'yes',
          takenOverAt: 'wound-check',
          kind: 'other',
          weight: 'serious',
        };
        for (const [name, value] of Object.entries(answers))
          await row
            .locator(`select[name$=".${name}"], input[name$=".${name}"][value="${value}"]`)
            .evaluate((field: HTMLSelectElement | HTMLInputElement, it) => {
              if (field instanceof HTMLInputElement) field.checked = true;
              else field.value = it;
            }, value);
        await run();
        for (const [name, value] of Object.entries(answers))
          await expect(row.locator(`select[name$=".${name}"], input[name$=".${name}"]:checked`)).toHaveValue(value);
      });
  });

  test.describe('without a record', () => {
    test.beforeAll(({ app }) => startWith(app, 'empty'));

    test('the invented surgeon chosen on a first visit', async ({ page }) => {
      const { run } = await openedSlowly(page, '/');
      const last = page.locator('input[type=radio]').last();
      await last.check();
      await run();
      await expect(last).toBeChecked();
    });
  });
});
