import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { open } from './open';
import { startWith } from './records';

/** Addresses that differ only in what they are about lead to one room. */
const roomOf = (path: string) =>
  path
    .replace(/[?#].*/, '')
    .replace(/\/(case|list|goal|reflection|import)-\d+/, '/[$1]')
    .replace(/^\/choose\/(?!(?:waiting|over-time)$).+/, '/choose/[step]')
    .replace(/^\/settings\/procedures\/(?!new)[^/]+/, '/settings/procedures/[procedure]')
    .replace(/(\[procedure\]\/(?:steps|facts))\/.+/, '$1/[one]')
    .replace(/^\/checkpoints\/(eyes|rehearsals)\/.+/, '/checkpoints/$1/[card]')
    .replace(/^\/checkpoints\/(?!(?:eyes|rehearsals)\/).+/, '/checkpoints/[step]')
    .replace(/^\/method\/.+/, '/method/[number]');

/** Links a person could press here, by the room they lead to; files to take along are none. */
const pressable = (page: Page) =>
  page.$$eval('a[href^="/"]:not([download]), a[href^="?"]', (links) =>
    links
      .filter(
        (link) => link.checkVisibility() && !/\.(csv|json|md|ics|svg|png)\b/.test(link.getAttribute('href') ?? ''),
      )
      .map((link) => link.getAttribute('href') ?? ''),
  );

async function walk(page: Page, seen: Set<string>): Promise<void> {
  for (const href of await pressable(page)) {
    const room = roomOf(new URL(href, page.url()).pathname);
    if (seen.has(room)) continue;
    seen.add(room);
    const from = page.url();
    await page.locator(`a[href="${href}"]`).filter({ visible: true }).first().click();
    await expect(page, `to ${href}`).not.toHaveURL(from);
    seen.add(roomOf(new URL(page.url()).pathname)); // a room may lead on to another
    await expect(page.locator('h1')).toBeVisible();
    expect(await page.evaluate(() => 'stays' in window), `${href} was opened anew`).toBe(true);
    await walk(page, seen);
    await page.goBack();
    await expect(page).toHaveURL(from);
  }
}

test.describe('walking from room to room', () => {
  test.beforeAll(({ app }) => startWith(app, 'fellow'));

  // What leaves the origin, breaks the policy or throws on the way fails the test by the fixture.
  test('every room is reached by links alone, on one page', async ({ page }) => {
    test.setTimeout(120_000);
    await page.setViewportSize({ width: 1440, height: 900 });
    await open(page, '/');
    await page.evaluate(() => Object.assign(window, { stays: true }));
    const seen = new Set(['/']);
    await walk(page, seen);
    expect([...seen].sort()).toEqual([
      '/',
      '/after-twenty',
      '/after-twenty/[goal]',
      '/after-twenty/[goal]/mentor',
      '/before-a-list',
      '/cases',
      '/cases/[case]',
      '/cases/bring-in',
      '/cases/list-sheet',
      '/cases/lists/[list]',
      '/cases/lists/[list]/times',
      '/cases/lists/new',
      '/cases/new',
      '/cases/time',
      '/cases/timing-plan',
      '/checkpoints',
      '/checkpoints/[step]',
      '/checkpoints/eyes/[card]',
      '/checkpoints/rehearsals/[card]',
      '/choose',
      '/choose/[step]',
      '/choose/over-time',
      '/choose/waiting',
      '/method',
      '/method/[number]',
      '/plan',
      '/plan/[goal]',
      '/reflect',
      '/reflect/[reflection]',
      '/reflect/new',
      '/report',
      '/settings',
      '/settings/backups',
      '/settings/faults',
      '/settings/packet',
      '/settings/procedures',
      '/settings/procedures/[procedure]',
      '/settings/procedures/[procedure]/facts/[one]',
      '/settings/procedures/[procedure]/steps/[one]',
      '/settings/procedures/[procedure]/words',
      '/settings/procedures/new',
      '/settings/restore',
    ]);
  });
});

test.describe('the watch itself', () => {
  for (const [what, offence] of [
    ['a style of ours in the page', () => document.body.setAttribute('style', 'color: red')],
    ['a request to elsewhere', () => void fetch('http://127.0.0.2:9/').catch(() => null)],
  ] as const)
    test(`notices ${what}`, async ({ page }) => {
      test.fail(true, 'the fixture must fail this test');
      await page.goto('/');
      const told = page.waitForEvent('console');
      await page.evaluate(offence);
      await told;
    });
});
