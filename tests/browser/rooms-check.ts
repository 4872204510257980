import axe from 'axe-core';
import { expect, type Page } from 'playwright/test';
import type { App } from './app';
import { waitingRooms } from './records';
import { pathOf, ROOMS, widerThanThePage, type Room } from './rooms';

/** What a narrow window and the dark change. */
const NARROW = ['color-contrast', 'target-size'];

/**
 * What axe finds, minor or critical, a line each. Its own script is put into the page as it is and asked for violations
 * alone: a quarter of the time that its Playwright wrapper takes, which opens a second page and lists what passed.
 * @param only rules by name (target-size is off unless named); without: all that are on
 */
export async function findings(page: Page, only?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  return page.evaluate(
    async (rules) => {
      const { run } = (window as unknown as { axe: typeof axe }).axe;
      const { violations } = await run(document, {
        resultTypes: ['violations'],
        ...(rules ? { runOnly: { type: 'rule' as const, values: [...rules] } } : {}),
      });
      return violations.flatMap(({ id, help, nodes }) =>
        nodes.slice(0, 3).map(({ target, html }) => `${id} (${help}): ${target} ${html.slice(0, 160)}`),
      );
    },
    only as string[] | undefined,
  );
}

export const narrowFindings = (page: Page): Promise<string[]> => findings(page, NARROW);

/** In full once, at a desk by day; then only what a narrow window and the dark change. */
async function checkRoom(page: Page, room: Room, path: string): Promise<void> {
  await page.emulateMedia({ colorScheme: 'light' });
  await page.setViewportSize({ width: 1440, height: 900 });
  const status = (await page.goto(path))?.status();
  expect.soft(status, room.name).toBe(room.name === 'no-such-page' ? 404 : 200);
  expect.soft(await findings(page), `${room.name}, 1440 light`).toEqual([]);
  for (const width of [1440, 768, 360]) {
    await page.setViewportSize({ width, height: 900 });
    expect.soft(await widerThanThePage(page), `${room.name}, wider than ${width}`).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: 'dark' });
  expect.soft(await narrowFindings(page), `${room.name}, 360 dark`).toEqual([]);
}

/** Every room of the record as it stands; `absent`: rooms nothing leads to in it, said by name so that none gets lost. */
export async function checkRooms(
  page: Page,
  app: App,
  absent: readonly string[],
  mine: (at: number) => boolean = () => true,
): Promise<void> {
  const missing: string[] = [];
  for (const [at, room] of [...ROOMS, ...(await waitingRooms(app))].entries()) {
    if (!mine(at)) continue;
    const path = await pathOf(room, page);
    if (path === null) missing.push(room.name);
    else await checkRoom(page, room, path);
  }
  expect(missing).toEqual(absent);
}
