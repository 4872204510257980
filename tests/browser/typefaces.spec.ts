import type { CDPSession } from 'playwright/test';
import { expect, test } from './fixture';
import { startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

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
