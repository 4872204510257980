import { readdirSync } from 'node:fs';
import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { open } from './open';
import { startWith } from './records';
import { pathOf, ROOMS, type Room } from './rooms';

type Link = { href: string; name: string };

/** Links to method pages, those behind a fold included, by the name a screen reader gives them. */
async function methodLinks(page: Page): Promise<Link[]> {
  // What is folded has no name yet.
  await page.$$eval('details', (folds) => folds.forEach((fold) => (fold.open = true)));
  const links = page.locator('a[href^="/method/"]');
  return Promise.all(
    Array.from({ length: await links.count() }, async (_, at) => ({
      href: (await links.nth(at).getAttribute('href')) ?? '',
      name: nameIn(await links.nth(at).ariaSnapshot()),
    })),
  );
}

/** `- link "How it is made: usual":` → `How it is made: usual`. */
const nameIn = (snapshot: string): string => /link "(.*?)"/.exec(snapshot)?.[1] ?? '';

/** Not the room that lists them all. */
const HOUSE: readonly Room[] = [
  ...ROOMS.filter(({ name }) => !['method', 'method-page', 'no-such-page'].includes(name)),
  { name: 'report-goal', path: '/report?of=goal-1' },
  { name: 'plan-aimed', path: '/plan?step=capsulorhexis&procedure=phaco&eyes=pupil:small' },
];

/** What a room shows, and so must lead to. */
const MUST: Readonly<Record<string, readonly string[]>> = {
  choose: ['suggestion', 'certainty', 'adjusted', 'median', 'spread', 'reference', 'share', 'returned-to', 'over-time'],
  'waiting-note': ['waiting'],
  'over-time': ['two-stretches', 'median'],
  step: ['median', 'spread', 'reference', 'patterns', 'pair', 'case-by-case', 'step-time', 'returned-to', 'events'],
  plan: ['suggestion', 'baseline-cases', 'what-twenty-can-show', 'result', 'steadier'],
  'plan-aimed': ['aimed'],
  'plan-set': ['baseline-cases', 'next-twenty'],
  'after-twenty': ['next-twenty', 'done', 'events', 'monitor'],
  'after-twenty-past': [
    'result',
    'error-rates',
    'lasting',
    'run-chart',
    'other-charts',
    'done',
    'events',
    'next-twenty',
  ],
  'report-goal': ['step-time', 'result', 'events'],
  settings: ['monitor'],
};

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

  test('every number leads to the page on how it is made, and every page is led to', async ({ page, app }) => {
    test.setTimeout(120_000);
    const led = new Set<string>();
    for (const room of HOUSE) {
      const path = await pathOf(room, page);
      expect.soft(path, room.name).not.toBeNull();
      if (path === null) continue;
      await page.goto(path);
      const links = await methodLinks(page);
      const ids = links.map(({ href }) => href.replace('/method/', ''));
      for (const id of ids) led.add(id);
      expect.soft(ids, room.name).toEqual(expect.arrayContaining([...(MUST[room.name] ?? [])]));
      for (const { name, href } of links) expect.soft(name, `${room.name}, ${href}`).toMatch(/how it is made/i);
      const leadsTo = new Map<string, string>();
      for (const { name, href } of links) {
        expect.soft(leadsTo.get(name) ?? href, `${room.name}: "${name}" leads to two pages`).toBe(href);
        leadsTo.set(name, href);
      }
    }
    for (const id of led) expect.soft((await fetch(new URL(`/method/${id}`, app.origin))).status, id).toBe(200);
    const written = readdirSync(new URL('../../content/method/', import.meta.url)).map((file) =>
      file.replace(/^\d+-|\.md$/g, ''),
    );
    // The list of changes is about numbers of before; the room that lists all pages leads to it.
    expect([...led].sort()).toEqual(written.filter((id) => id !== 'changes').sort());
  });

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
    await expect(said).toContainText('following 20 (3), case');
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
