import { mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { SCENES } from '../../src/lib/charts/eye/catalogue';
import { svgOf } from '../../src/lib/charts/eye/svg';
import type { App } from './app';
import { lookRound } from './surgeons';

/** The two rooms of the README, small: `demo-data/pictures/now.png` and `after-twenty.png`. */
export async function readmePictures(browser: Browser, app: App, projectFolder: string): Promise<string[]> {
  const folder = join(projectFolder, 'demo-data/pictures');
  await mkdir(folder, { recursive: true });
  const context = await browser.newContext({
    baseURL: app.origin,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    viewport: { width: 1280, height: 1000 },
    deviceScaleFactor: 0.7,
  });
  const page = await context.newPage();
  await lookRound(page, 'fellow');
  const files: string[] = [];
  for (const [name, path, from] of [
    ['now', '/', 'main'],
    ['after-twenty', '/after-twenty/goal-1', '#run'],
  ] as const) {
    await page.goto(path, { waitUntil: 'load' });
    await page.evaluate(() => document.fonts.ready);
    const top = await page.locator(from).evaluate((part) => part.getBoundingClientRect().top + window.scrollY);
    const clip = { x: 0, y: Math.max(0, top - 24), width: 1280, height: name === 'now' ? 1090 : 520 };
    files.push(join(folder, `${name}.png`));
    await page.screenshot({ path: files.at(-1), fullPage: true, clip });
  }
  await context.close();
  return files;
}

/** All drawings of the eye on one sheet, with their names, in the large form and the small. */
export async function eyeSheet(browser: Browser, file: string, projectFolder: string): Promise<void> {
  const read = (path: string) => readFile(join(projectFolder, path), 'utf8');
  const tokens = await read('src/lib/ui/tokens.css');
  const style = /<style>([\s\S]*)<\/style>/.exec(await read('src/lib/charts/EyeScene.svelte'))?.[1] ?? '';
  const drawn = SCENES.map(
    (scene) => `<figure><div class="drawing">${svgOf(scene, { key: 'large', decorative: true })}</div>
      <div class="drawing little">${svgOf(scene, { key: 'small', small: true, decorative: true })}</div>
      <figcaption>${scene.id}</figcaption></figure>`,
  );
  const page = await browser.newPage({ viewport: { width: 1600, height: 900 } });
  await page.setContent(`<!doctype html><meta charset="utf-8"><title>Drawings of the eye</title><style>${tokens}
    ${style.replaceAll(':global', '')}
    body { display: grid; grid-template-columns: repeat(4, 1fr); gap: 24px; background: var(--paper); color: var(--ink); }
    figure { display: grid; grid-template-columns: 300px 80px; } figcaption { grid-column: 1 / -1; }</style>${drawn.join('')}`);
  await page.screenshot({ path: file, fullPage: true });
  await page.close();
}
