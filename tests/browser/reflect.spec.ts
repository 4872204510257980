import type { Page } from 'playwright/test';
import type { App } from './app';
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
  await page.keyboard.press('d');
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
  await expect(page.getByRole('heading', { name: /^171 cases in 32 lists/ })).toBeVisible();
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
  const [heading, note, search] = [await boxOf('#notes'), await boxOf('main article'), await boxOf('#find')];
  expect(note - heading).toBeLessThan(160);
  expect(search).toBeGreaterThan(note);
});

/** The last twenty cases of the record; the goal under way has three checkpoints and one protected part. */
async function twentyCases(app: App) {
  const { cases, goals } = await everythingOf(app);
  const ids = cases.slice(-20).map(({ id }) => id);
  const checkpoints = goals.find(({ state }) => state === 'running')?.checkpoints ?? [];
  expect([ids.length, checkpoints.length]).toEqual([20, 3]);
  return { ids, checkpoints, path: `/reflect/new?${ids.map((id) => `case=${id}`).join('&')}` };
}
/** Three cases were different: one a checkpoint. */
const OTHERWISE = ['partly', 'not', 'did-not-arise'] as const;

const storedLast = async (app: App) => (await everythingOf(app)).reflections.at(-1);

test('twenty cases of three checkpoints in at most 40 taps on a phone', async ({ page, app }) => {
  await page.setViewportSize({ width: 360, height: 800 });
  const { ids, checkpoints, path } = await twentyCases(app);
  await open(page, path);
  let taps = 0;
  const tap = async (selector: string) => {
    await page.locator(selector).click();
    taps += 1;
  };
  for (const [at, { id }] of checkpoints.entries()) {
    await tap(`input[name="answer:${ids[at * 3]}:${id}"][value="${OTHERWISE[at]}"]`);
    await tap(`input[name="all:answer:${id}"]`);
    await expect(page.locator(`input[name$=":${id}"][value="done"]:checked`)).toHaveCount(20); // 19 and their mark
  }
  await tap('button.main');
  await expect(page.getByText('Your note is stored.')).toBeVisible();
  expect(taps).toBeLessThanOrEqual(40);
  const answers = (await storedLast(app))?.answers ?? [];
  expect(answers).toHaveLength(60);
  for (const [at, { id }] of checkpoints.entries())
    for (const [place, caseId] of ids.entries())
      expect(answers).toContainEqual({ caseId, checkpointId: id, answer: place === at * 3 ? OTHERWISE[at] : 'done' });
});

test('the same without a mouse, in at most 40 keys from the first answer', async ({ page, app }) => {
  await page.setViewportSize({ width: 1280, height: 900 });
  const { ids, checkpoints, path } = await twentyCases(app);
  await open(page, path);
  let keys = 0;
  const press = async (key: string) => {
    await page.keyboard.press(key);
    keys += 1;
  };
  await page.locator(`input[name="all:answer:${checkpoints[0]?.id}"]`).focus();
  for (const { id } of checkpoints) {
    await expect(page.locator(`input[name="all:answer:${id}"]`)).toBeFocused();
    await press('Space');
    await press('Tab');
    await press('p');
    await expect(page.locator(`input[name="answer:${ids[1]}:${id}"][value="done"]`)).toBeFocused();
    await press('n');
    await press('Enter');
  }
  await press('s'); // the box of the protected part: nothing by this key
  await press('Enter');
  await expect(page.locator('textarea[name="saw"]')).toBeFocused();
  while ((await page.evaluate(() => document.activeElement?.textContent)) !== 'Store') await press('Tab');
  await press('Enter');
  await expect(page.getByText('Your note is stored.')).toBeVisible();
  expect(keys).toBeLessThanOrEqual(40);
  const answers = (await storedLast(app))?.answers ?? [];
  expect(answers.map(({ answer }) => answer).sort()).toEqual([
    ...Array<string>(54).fill('done'),
    ...['not', 'not', 'not', 'partly', 'partly', 'partly'],
  ]);
});

test.describe('without scripts', () => {
  test.use({ javaScriptEnabled: false });

  test('one mark answers for all the others, and a refused note keeps it', async ({ page, app }) => {
    const { ids, checkpoints, path } = await twentyCases(app);
    const [first] = checkpoints;
    await page.goto(path);
    await page.locator(`input[name="all:answer:${first?.id}"]`).check();
    await page.locator(`input[name="answer:${ids[0]}:${first?.id}"][value="not"]`).check();
    await page.locator('textarea[name="saw"]').fill('Mr Smith blinked less.');
    await page.getByRole('button', { name: 'Store', exact: true }).click();
    await expect(page.getByRole('alert')).toContainText('"Mr Smith" looks like a name');
    await expect(page.locator(`input[name="all:answer:${first?.id}"]`)).toBeChecked();
    await expect(page.locator(`input[name="answer:${ids[0]}:${first?.id}"][value="not"]`)).toBeChecked();
    await page.locator('textarea[name="saw"]').fill('Less blinking.');
    await page.getByRole('button', { name: 'Store', exact: true }).click();
    await expect(page.getByText('Your note is stored.')).toBeVisible();
    const stored = await storedLast(app);
    expect(stored).toMatchObject({ saw: 'Less blinking.' });
    expect(stored?.answers.map(({ answer }) => answer)).toEqual(['not', ...Array<string>(19).fill('done')]);
  });
});
