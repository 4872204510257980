import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { open } from './open';
import { everythingOf, startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

/** The same page in two tabs: what each types, how it is stored. */
async function bothTabs(one: Page, path: string, type: (page: Page, text: string) => Promise<void>) {
  const other = await one.context().newPage();
  await open(one, path);
  await open(other, path);
  await type(other, 'stored in the other tab');
  await expect(other.getByRole('status').filter({ hasText: 'stored' }).first()).toBeVisible();
  await type(one, 'typed in this tab');
  const said = one.getByRole('alert').filter({ hasText: 'changed elsewhere since you opened it' }).first();
  await expect(said).toContainText('stored in the other tab');
  await expect(said).toContainText('What you typed is still here');
  await other.close();
}

test('a case edited in two tabs: the second sees both, and stores knowingly', async ({ page, app }) => {
  const { cases } = await everythingOf(app);
  const id = cases.find(({ keptAsItIs, listId }) => keptAsItIs === null && listId !== null)?.id ?? '';
  const remarkOf = async () => (await everythingOf(app)).cases.find((each) => each.id === id)?.remark?.text;
  const place = (tab: Page) => tab.locator('#place');
  await bothTabs(page, `/cases/${id}`, async (tab, text) => {
    await place(tab).locator('summary').first().click();
    await place(tab).getByLabel('Remark').fill(text);
    await place(tab).getByRole('button', { name: 'Store this' }).click();
  });
  expect(await remarkOf()).toBe('stored in the other tab');
  await expect(place(page).getByLabel('Remark')).toHaveValue('typed in this tab');
  await place(page).getByRole('button', { name: 'Store this' }).click();
  await expect(page.getByText('List, place, eye and remark are stored.')).toBeVisible();
  expect(await remarkOf()).toBe('typed in this tab');
});

test('a note edited in two tabs: the second sees both, and the first stays among its earlier texts', async ({
  page,
  app,
}) => {
  const id = (await everythingOf(app)).reflections[0]?.id ?? '';
  const noteNow = async () => (await everythingOf(app)).reflections.find((each) => each.id === id);
  await bothTabs(page, `/reflect/${id}`, async (tab, text) => {
    await tab.locator('textarea[name="saw"]').fill(text);
    await tab.getByRole('button', { name: 'Store the change' }).click();
  });
  expect((await noteNow())?.saw).toBe('stored in the other tab');
  await expect(page.locator('textarea[name="saw"]')).toHaveValue('typed in this tab');
  await page.getByRole('button', { name: 'Store the change' }).click();
  await expect(page.getByText('Your change is stored')).toBeVisible();
  expect(await noteNow()).toMatchObject({
    saw: 'typed in this tab',
    history: expect.arrayContaining([expect.objectContaining({ saw: 'stored in the other tab' })]),
  });
});
