import { expect, test } from './fixture';
import { open } from './open';
import { startWith } from './records';

test.describe('After twenty with the fellow', () => {
  test.beforeAll(({ app }) => startWith(app, 'fellow'));

  test('on a phone what was done, the result, safety and the notes beside them stand open; numbers and files are one key away', async ({
    page,
  }) => {
    await page.setViewportSize({ width: 360, height: 800 });
    await open(page, '/after-twenty/goal-1');
    for (const open of [
      'done in 15 of 20, partly in 3',
      'Shorter, beyond the rest of the operation.',
      'Does not say',
      'Left out before times were seen: 0.',
      'Events were answered in 19 of these 20 cases; none in those 19.',
      'The change, with its interval',
      'In the following twenty, capsulorhexis',
      'In the second twenty after it, capsulorhexis stayed below its baseline',
    ])
      await expect(page.getByText(open).first()).toBeVisible();
    for (const folded of ['Save as SVG', 'Moving average']) await expect(page.getByText(folded).first()).toBeHidden();
    const size = await page.evaluate(() => [
      document.documentElement.scrollHeight,
      document.documentElement.scrollWidth,
    ]);
    expect(size[0]).toBeLessThan(5900);
    expect(size[1]).toBe(360);
  });

  test('at a desk the three parts begin and end together', async ({ page }) => {
    await page.setViewportSize({ width: 1440, height: 900 });
    await open(page, '/after-twenty/goal-1');
    const boxes = await Promise.all(
      ['done', 'time', 'safety'].map((id) => page.locator(`section[aria-labelledby="${id}"]`).boundingBox()),
    );
    const [first] = boxes;
    expect(first?.height).toBeGreaterThan(200);
    for (const box of boxes) expect(box).toMatchObject({ y: first?.y, height: first?.height });
  });

  test('Choose and the page of a step tell which goal was set on it and lead to it', async ({ page }) => {
    await open(page, '/choose');
    await expect(page.getByText('You had a goal on capsulorhexis')).toContainText(
      '20 cases; shorter, beyond the rest of the operation; lasted.',
    );
    await expect(page.getByText('A goal on cortex aspiration is running')).toContainText('13 of 20 counted');
    await open(page, '/choose/cortex-aspiration');
    await page.getByRole('link', { name: 'Where this goal stands' }).first().click();
    await expect(page).toHaveURL(/\/after-twenty\/goal-2$/);
  });
});
