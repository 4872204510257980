import type { Locator, Page } from 'playwright/test';
import { expect, test } from './fixture';
import { open } from './open';
import { everythingOf, post, startWith } from './records';

const isFocused = (target: Locator) => target.evaluate((element) => element === document.activeElement);

/** Presses Tab until the target has the focus, and sees that it is shown to have it. @returns how many presses */
async function tabTo(page: Page, target: Locator, most: number): Promise<number> {
  for (let presses = 1; presses <= most; presses++) {
    await page.keyboard.press('Tab');
    if (!(await isFocused(target))) continue;
    const outline = await target.evaluate((element) => getComputedStyle(element).outlineStyle);
    expect(outline, 'the focus can be seen').not.toBe('none');
    return presses;
  }
  throw new Error(`not reached in ${most} presses of Tab: ${target}`);
}

test.describe('with the fellow', () => {
  test.beforeAll(({ app }) => startWith(app, 'fellow'));

  test('from Now to Choose, to a step, to a plan by keyboard alone', async ({ page }) => {
    await page.setViewportSize({ width: 1280, height: 900 });
    await open(page, '/');
    await tabTo(page, page.getByRole('navigation').getByRole('link', { name: 'Choose' }), 6);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { name: 'Suggested: capsulorhexis.', exact: true })).toBeVisible();

    // The link past the navigation is the first thing on every page.
    await tabTo(page, page.getByRole('link', { name: 'To the page' }), 1);
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('link', { name: 'Look at capsulorhexis' }), 4);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { name: /^Capsulorhexis became shorter/ })).toBeVisible();

    await tabTo(page, page.getByRole('link', { name: 'To the page' }), 1);
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('link', { name: 'Set a goal on this step' }).first(), 4);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('button', { name: 'Set the goal' })).toBeVisible();
    await tabTo(page, page.getByRole('button', { name: 'Set the goal' }), 60);
  });

  test('the rest of the rooms opens by keyboard at a phone’s width', async ({ page }) => {
    await page.setViewportSize({ width: 360, height: 800 });
    await open(page, '/');
    await tabTo(page, page.getByRole('link', { name: 'More', exact: true }), 8);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { name: 'More', exact: true })).toBeVisible();
    await tabTo(page, page.locator('main').getByRole('link', { name: 'Reflect' }), 20);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { name: '4 cases wait for review.', exact: true })).toBeVisible();
  });
});

/** Nucleus, pupil, still, anything else, hands, event: one key each; a letter under "anything else" waits for Enter. */
const ROWS = [
  { keys: [...'1LY0O0'], facts: { nucleus: 'soft', pupil: 'large', still: true } },
  { keys: [...'2MY0O0'], facts: { nucleus: 'medium', pupil: 'medium', still: true } },
  {
    keys: [...'3SNF', 'Enter', ...'O0'],
    facts: { nucleus: 'hard', pupil: 'small', still: false, 'floppy-iris': true },
  },
  { keys: [...'4DY0O0'], facts: { nucleus: 'very-hard', pupil: 'device', still: true } },
  { keys: [...'WLY0O0'], facts: { nucleus: 'white', pupil: 'large', still: true } },
];

test.describe('a list sheet', () => {
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  test('the facts of fourteen cases in at most 140 keys, without a mouse', async ({ page, app }) => {
    const where = await post(app, '/cases/lists/new?/make', {
      procedure: 'phaco',
      when: '7',
      label: '',
      count: '14',
      first: 'M01',
    });
    await page.setViewportSize({ width: 1280, height: 900 });
    await open(page, where);
    await expect(page.getByText('One key per field')).toBeVisible();
    let keys = 0;
    const press = async (key: string) => {
      keys += 1;
      await page.keyboard.press(key);
    };
    await press('Tab');
    await press('Enter'); // past the navigation
    keys += await tabTo(page, page.getByRole('group', { name: 'Nucleus, M01' }).getByRole('radio').first(), 6);
    for (let row = 0; row < 14; row++) for (const key of ROWS[row % ROWS.length]?.keys ?? []) await press(key);
    keys += await tabTo(page, page.getByRole('button', { name: 'Store the list' }), 30);
    await press('Enter');
    await expect(page.getByText('The list is stored.')).toBeVisible();
    expect(keys).toBeLessThanOrEqual(140);

    const cases = (await everythingOf(app)).cases.filter(({ code }) => code.startsWith('M'));
    expect(cases).toHaveLength(14);
    for (const [index, one] of cases.entries())
      expect(one, one.code).toMatchObject({
        code: `M${String(index + 1).padStart(2, '0')}`,
        position: index + 1,
        facts: ROWS[index % ROWS.length]?.facts,
        hands: { whole: 'mine', steps: {} },
        events: [],
        stretches: [],
      });
  });

  test.describe('on a phone', () => {
    test.use({ hasTouch: true, viewport: { width: 360, height: 740 } });

    test('one tap an answer, each large enough for a finger', async ({ page, app }) => {
      const where = await post(app, '/cases/lists/new?/make', {
        procedure: 'phaco',
        when: '8',
        label: '',
        count: '2',
        first: 'P1',
      });
      await open(page, where);
      const row = page.getByRole('group', { name: 'Case P1' });
      let taps = 0;
      const tap = async (group: string, answer: string) => {
        const target = row.getByRole('group', { name: new RegExp(`^${group}`) }).getByText(answer, { exact: true });
        const box = await target.boundingBox();
        expect(Math.min(box?.width ?? 0, box?.height ?? 0), answer).toBeGreaterThanOrEqual(44);
        await target.tap();
        taps += 1;
      };
      await tap('Nucleus', 'hard');
      await tap('Pupil', 'small');
      await tap('Eye and patient still', 'still');
      await tap('Anything else', 'none');
      await tap('Hands', 'all mine');
      await tap('Event', 'none');
      expect(taps).toBe(6);
      await page.getByRole('button', { name: 'Store the list' }).tap();
      await expect(page.getByText('The list is stored.')).toBeVisible();
      expect((await everythingOf(app)).cases.find(({ code }) => code === 'P1')).toMatchObject({
        facts: { nucleus: 'hard', pupil: 'small', still: true },
        hands: { whole: 'mine' },
        events: [],
      });
    });
  });
});
