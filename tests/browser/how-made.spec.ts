import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { methodLinks } from './method-links';
import { open } from './open';
import { startWith } from './records';

/** Every figure of a page that draws numbers, not an eye, with what stands around it. */
const figures = (page: Page) =>
  page.$$eval('figure:not(:has(> .drawing))', (all) =>
    all.map((figure) => {
      const section = figure.closest('section');
      return {
        title: section?.querySelector('h2, h3')?.textContent?.trim() ?? '',
        sentence: section?.querySelector('header p, p:not(.small)')?.textContent?.trim() ?? '',
        tableRows: section?.querySelectorAll('details table tbody tr').length ?? 0,
        svg: section?.querySelector('a[download$=".svg"]')?.getAttribute('href') ?? '',
        png: [...(section?.querySelectorAll('button') ?? [])].some((button) => button.textContent === 'Save as PNG'),
        path: figure.querySelectorAll('[role="slider"]').length,
      };
    }),
  );

test.describe('with the fellow', () => {
  test.beforeAll(({ app }) => startWith(app, 'fellow'));

  test('the links on how numbers are made are each read once and whole', async ({ page }) => {
    for (const room of ['/choose', '/choose/capsulorhexis', '/after-twenty/goal-1']) {
      await open(page, room);
      const names = (await methodLinks(page)).map(({ name }) => name);
      expect(names.length).toBeGreaterThan(3);
      for (const name of names) expect.soft(name.match(/how it is made/gi), `${room}: ${name}`).toHaveLength(1);
      for (const name of names) expect.soft(name, room).toMatch(/^How it is made: \S|\S: how it is made$/);
      // What is printed before them in the line is for the eye alone: it is in their names already.
      const lines = page.locator('p.how');
      for (let at = 0; at < (await lines.count()); at += 1) {
        const [read, links] = [await lines.nth(at).ariaSnapshot(), await lines.nth(at).locator('a').count()];
        expect.soft(read.match(/how it is made/gi), `${room}: ${read}`).toHaveLength(links);
      }
    }
  });

  for (const [room, count] of [
    ['/choose', 1],
    ['/choose/capsulorhexis', 2],
    ['/after-twenty/goal-1', 6],
  ] as const)
    test(`every drawing of ${room} has title, sentence, table, files and a path for the keys`, async ({
      page,
      app,
    }) => {
      await open(page, room);
      await expect(page.locator('[role="slider"]').first()).toBeAttached();
      const found = await figures(page);
      expect(found).toHaveLength(count);
      for (const { title, sentence, tableRows, svg, png, path } of found) {
        expect.soft(title).not.toBe('');
        expect.soft(sentence, title).toMatch(/\.$/);
        expect.soft(tableRows, title).toBeGreaterThan(0);
        expect.soft(png, title).toBe(true);
        expect.soft(path, title).toBeGreaterThan(0);
        const file = await fetch(new URL(svg, new URL(room, app.origin)));
        expect.soft(file.headers.get('content-type'), title).toContain('image/svg+xml');
        const text = await file.text();
        expect.soft(text, title).toMatch(/^<svg [\s\S]*<\/svg>\s*$/);
        expect.soft(text, title).not.toMatch(/NaN|undefined|var\(|class=/);
      }
      expect(new Set(found.map(({ svg }) => svg)).size).toBe(count);
    });

  test('the other charts are walked by the arrow keys, and saved as a picture', async ({ page }) => {
    await page.setViewportSize({ width: 1280, height: 900 });
    await open(page, '/after-twenty/goal-1');
    await page.locator('summary', { hasText: 'Other charts' }).click();
    const section = page.locator('section[aria-labelledby="other-average"]');
    const said = section.locator('[role="status"]');
    await section.locator('[role="slider"]:visible').focus();
    await expect(said).toContainText('next twenty, case F081: average');
    await page.keyboard.press('ArrowRight');
    await expect(said).toContainText('case F082');
    await page.keyboard.press('End');
    await expect(said).toContainText('following 20 (2), case');
    await section.locator('summary', { hasText: 'Numbers, file' }).click();
    const saved = page.waitForEvent('download');
    await section.getByRole('button', { name: 'Save as PNG' }).click();
    expect((await saved).suggestedFilename()).toBe('after-twenty-average.png');
  });

  test('no drawing of times is handed out while the window runs', async ({ app }) => {
    for (const name of ['chart', 'change', 'average', 'sums', 'constructor', 'no-such'])
      expect((await fetch(new URL(`/after-twenty/goal-2/${name}.svg`, app.origin))).status, name).toBe(404);
  });
});

test.describe('with the consultant', () => {
  test.beforeAll(({ app }) => startWith(app, 'consultant'));

  test('events that were never asked about are said in a sentence, not drawn as a row of question marks', async ({
    page,
  }) => {
    await open(page, '/choose/capsulorhexis');
    const section = page.locator('section[aria-labelledby="cases"]');
    await expect(section).toContainText(/Events were not asked in these/);
    await expect(section.locator('svg text', { hasText: /^(events|\?)$/ })).toHaveCount(0);
  });
});
