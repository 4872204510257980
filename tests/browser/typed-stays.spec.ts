import { expect, test } from './fixture';
import { open } from './open';
import { everythingOf, startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

const FIELDS = { when: '12 March 2026', label: 'Morning', count: '3', first: 'Z101' };

test('a list made with two presses is made once, and the page shows it', async ({ page, app }) => {
  await open(page, '/cases/lists/new');
  for (const [name, value] of Object.entries(FIELDS)) await page.locator(`input[name="${name}"]`).fill(value);
  await page.getByRole('button', { name: 'Make the list' }).dblclick();
  await expect(page.getByText('The list is ready.')).toBeVisible();
  const { cases } = await everythingOf(app);
  expect(cases.filter(({ code }) => code.startsWith('Z10')).map(({ code }) => code)).toEqual(['Z101', 'Z102', 'Z103']);
});

test.describe('without JavaScript', () => {
  test.use({ javaScriptEnabled: false });
  const typed = { ...FIELDS, label: 'Afternoon', first: 'Y201', when: '31/2/2026' };

  test('a form pressed twice works once, and one that is refused keeps every field', async ({ page, app }) => {
    await page.goto('/cases/lists/new');
    for (const [name, value] of Object.entries(typed)) await page.locator(`input[name="${name}"]`).fill(value);
    await page.getByRole('button', { name: 'Make the list' }).click();
    await expect(page.locator('.error').first()).toContainText('When: a day as you write it');
    for (const [name, value] of Object.entries(typed))
      await expect(page.locator(`input[name="${name}"]`)).toHaveValue(value);
    // Which of the two is the day is asked once.
    await page.locator('input[name="when"]').fill('3/4/2026');
    await page.getByRole('button', { name: 'Make the list' }).click();
    await page.locator('input[name="dateOrder"][value="dmy"]').check();
    await page.getByRole('button', { name: 'Make the list' }).dblclick();
    await expect(page.getByText('The list is ready.')).toBeVisible();
    const { lists, cases } = await everythingOf(app);
    expect(lists.filter(({ label }) => label === 'Afternoon').map(({ when }) => when)).toEqual([
      { kind: 'date', date: '2026-04-03' },
    ]);
    expect(cases.filter(({ code }) => code.startsWith('Y20'))).toHaveLength(3);
  });
});

test('Back finds what was typed', async ({ page }) => {
  await open(page, '/cases/lists/new');
  for (const [name, value] of Object.entries(FIELDS)) await page.locator(`input[name="${name}"]`).fill(value);
  await page.getByRole('link', { name: 'Print a list sheet' }).click();
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('Enter a list');
  await page.goBack();
  for (const [name, value] of Object.entries(FIELDS))
    await expect(page.locator(`input[name="${name}"]`)).toHaveValue(value);
});

test('a note is deleted, and put back as it was', async ({ page, app }) => {
  const { reflections } = await everythingOf(app);
  const [note] = reflections;
  if (!note) throw new Error('the fellow has a note');
  await open(page, `/reflect/${note.id}`);
  await page.getByText('Delete this note').first().click();
  await page.getByRole('button', { name: 'Delete this note' }).click();
  await expect(page.getByText('is deleted.')).toBeVisible();
  expect((await everythingOf(app)).reflections.map(({ id }) => id)).not.toContain(note.id);
  await page.getByRole('button', { name: 'Put it back' }).click();
  await expect(page.getByText('The note is back as it was.')).toBeVisible();
  const back = (await everythingOf(app)).reflections.find(({ id }) => id === note.id);
  expect(back).toEqual({ ...note, version: note.version + 1 });
});

test('a case moves to a new list from its list, and back with undo', async ({ page, app }) => {
  const { cases, lists } = await everythingOf(app);
  const list = lists.find(({ id }) => cases.filter(({ listId }) => listId === id).length > 2);
  if (!list) throw new Error('the fellow has a list of three cases');
  const here = cases.filter(({ listId }) => listId === list.id);
  await open(page, `/cases/lists/${list.id}`);
  await page.getByText('Move cases to another list').click();
  await page.locator(`input[name="move"][value="${here[0]?.id}"]`).check();
  await page.locator('#move summary', { hasText: 'A new list' }).click();
  await page.locator('input[name="newListWhen"]').fill('14 March 2026');
  await page.getByRole('button', { name: 'Move them' }).click();
  await expect(page.getByText('The cases are moved to another list.')).toBeVisible();
  const after = await everythingOf(app);
  const moved = after.cases.find(({ id }) => id === here[0]?.id);
  expect(after.lists.find(({ id }) => id === moved?.listId)?.when).toEqual({ kind: 'date', date: '2026-03-14' });
  await page.getByRole('button', { name: /Undo this change/ }).click();
  await expect(page.getByText('The last change is undone')).toBeVisible();
  expect((await everythingOf(app)).cases.find(({ id }) => id === here[0]?.id)?.listId).toBe(list.id);
});
