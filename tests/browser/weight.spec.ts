import type { CDPSession, Page } from 'playwright/test';
import { expect, test } from './fixture';
import { startWith } from './records';
import { pathOf, ROOMS } from './rooms';

// A file out of the worker's store counts as large as it is unpacked.
test.use({ serviceWorkers: 'block' });

test.beforeAll(({ app }) => startWith(app, 'fellow'));

/** Bytes as they went over the wire, by what they are. */
const loaded = (page: Page) =>
  page.evaluate(() =>
    (performance.getEntriesByType('resource') as PerformanceResourceTiming[]).map(({ name, encodedBodySize }) => ({
      name: new URL(name).pathname,
      bytes: encodedBodySize,
    })),
  );

/** The typefaces a page is really drawn with, those of its text that is not hidden. */
async function drawnWith(session: CDPSession): Promise<string[]> {
  const { root } = await session.send('DOM.getDocument', { depth: 0 });
  const { nodeIds } = await session.send('DOM.querySelectorAll', { nodeId: root.nodeId, selector: 'body *' });
  const names = new Set<string>();
  for (const nodeId of nodeIds) {
    const { fonts } = await session.send('CSS.getPlatformFontsForNode', { nodeId });
    for (const font of fonts) names.add(font.familyName);
  }
  return [...names];
}

test('styles and typefaces together cost at most 260 kB, scripts at most 90 kB a room', async ({ page }) => {
  test.setTimeout(240_000);
  const styles = new Map<string, number>();
  for (const room of ROOMS) {
    const path = await pathOf(room, page);
    expect(path, room.name).not.toBeNull();
    await page.goto(path ?? '/', { waitUntil: 'load' });
    await page.evaluate(() => document.fonts.ready);
    const files = await loaded(page);
    const scripts = files.filter(({ name }) => name.endsWith('.js'));
    expect(scripts.length, room.name).toBeGreaterThan(0);
    expect
      .soft(
        scripts.reduce((sum, { bytes }) => sum + bytes, 0),
        room.name,
      )
      .toBeLessThanOrEqual(90_000);
    for (const { name, bytes } of files)
      if (/\.(css|woff2)$/.test(name)) styles.set(name, Math.max(bytes, styles.get(name) ?? 0));
  }
  expect([...styles.keys()].filter((name) => name.endsWith('.woff2'))).toHaveLength(3);
  expect([...styles.values()].reduce((sum, bytes) => sum + bytes, 0)).toBeLessThanOrEqual(260_000);
});

// Choose has signs in its key, and Settings paths, that neither typeface holds: they are not asked here.
test('a room is drawn in the two typefaces, not in one of the machine', async ({ page, context }) => {
  for (const path of ['/', '/cases', '/before-a-list', '/after-twenty', '/report', '/more']) {
    await page.goto(path, { waitUntil: 'load' });
    await page.evaluate(() => document.fonts.ready);
    const session = await context.newCDPSession(page);
    await session.send('DOM.enable');
    await session.send('CSS.enable');
    const names = await drawnWith(session);
    expect
      .soft(
        names.filter((name) => !/^(Newsreader|Source Sans 3)/.test(name)),
        path,
      )
      .toEqual([]);
    expect
      .soft(
        names.some((name) => name.startsWith('Newsreader')),
        path,
      )
      .toBe(true);
    await session.detach();
  }
});
