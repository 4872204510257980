import { readFileSync } from 'node:fs';
import type { CDPSession, Page } from 'playwright/test';
import { expect, test } from './fixture';
import { startWith } from './records';
import { pathOf, ROOMS } from './rooms';
import { facesOf, type Face } from './typeface-glyphs';

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

/** What stands on the page, hidden or not, by the typeface it is set in: family, italic, and its characters. */
const setIn = (page: Page): Promise<{ family: string; italic: boolean; characters: string }[]> =>
  page.evaluate(() => {
    const sets = new Map<string, Set<string>>();
    const note = (style: CSSStyleDeclaration, text: string) => {
      const key = `${style.fontFamily.split(',')[0]?.replace(/["']/g, '')}|${style.fontStyle === 'italic'}`;
      const set = sets.get(key) ?? new Set<string>();
      for (const character of text) if (character.trim() !== '') set.add(character);
      sets.set(key, set);
    };
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = texts.nextNode(); text; text = texts.nextNode()) {
      const holder = text.parentElement;
      // Codes of characters a person typed are their own, and a script is no text.
      if (holder && !holder.closest('script, style, noscript, svg title, svg desc'))
        note(getComputedStyle(holder), text.nodeValue ?? '');
    }
    for (const element of document.body.querySelectorAll('*'))
      for (const pseudo of ['::before', '::after'])
        note(getComputedStyle(element, pseudo), /^"(.*)"$/.exec(getComputedStyle(element, pseudo).content)?.[1] ?? '');
    return [...sets].map(([key, set]) => {
      const [family = '', italic] = key.split('|');
      return { family, italic: italic === 'true', characters: [...set].join('') };
    });
  });

/** Signs that no face of the family holds in that style; an upright face serves where the family has no italic one. */
function missing(faces: readonly Face[], set: Awaited<ReturnType<typeof setIn>>[number]): string {
  const own = faces.filter(({ family }) => family === set.family);
  const styled = own.filter(({ italic }) => italic === set.italic);
  const used = styled.length > 0 ? styled : own;
  return [...set.characters].filter((sign) => !used.some(({ has }) => has.has(sign.codePointAt(0) ?? 0))).join('');
}

test('no room and no page on a number shows a sign that its typeface does not hold', async ({ page }) => {
  test.setTimeout(240_000);
  const root = new URL('../../', import.meta.url);
  const css = readFileSync(new URL('src/lib/ui/fonts.css', root), 'utf8');
  const faces = facesOf(css, (path) => new URL(`node_modules/${path}`, root));
  // The reader of the files is right about one sign that is there and one that is not.
  expect(missing(faces, { family: 'Newsreader Variable', italic: false, characters: 'é√' })).toBe('√');

  const rooms: (string | null)[] = [];
  for (const room of ROOMS) rooms.push(await pathOf(room, page));
  const numbers = await (await page.request.get('/method')).text();
  const pages = [...numbers.matchAll(/href="(\/method\/[a-z0-9-]+)"/g)].map(([, path = '']) => path);
  expect(pages.length).toBeGreaterThan(20);
  for (const path of new Set([...rooms, ...pages])) {
    if (path === null) continue;
    await page.goto(path, { waitUntil: 'domcontentloaded' });
    for (const set of await setIn(page)) {
      expect.soft(['Newsreader Variable', 'Source Sans 3 Variable'], path).toContain(set.family);
      expect.soft(missing(faces, set), `${path}, ${set.family}`).toBe('');
    }
  }
});
