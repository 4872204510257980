import AxeBuilder from '@axe-core/playwright';
import { expect, type Page } from 'playwright/test';
import type { App } from './app';
import { waitingRooms } from './records';
import { pathOf, ROOMS, widerThanThePage, type Room } from './rooms';

/** Serious and critical findings, a line each. */
export const told = (found: Awaited<ReturnType<AxeBuilder['analyze']>>) =>
  found.violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, help, nodes }) =>
      nodes.slice(0, 3).map(({ target, html }) => `${id} (${help}): ${target} ${html.slice(0, 160)}`),
    );

/** What a narrow window and the dark change; target-size is off in axe unless it is asked for by name. */
export const narrowCheck = (page: Page) => new AxeBuilder({ page }).withRules(['color-contrast', 'target-size']);

/** In full once, at a desk by day; then only what a narrow window and the dark change. */
async function checkRoom(page: Page, room: Room, path: string): Promise<void> {
  await page.emulateMedia({ colorScheme: 'light' });
  await page.setViewportSize({ width: 1440, height: 900 });
  const status = (await page.goto(path))?.status();
  expect.soft(status, room.name).toBe(room.name === 'no-such-page' ? 404 : 200);
  expect.soft(told(await new AxeBuilder({ page }).analyze()), `${room.name}, 1440 light`).toEqual([]);
  for (const width of [1440, 768, 360]) {
    await page.setViewportSize({ width, height: 900 });
    expect.soft(await widerThanThePage(page), `${room.name}, wider than ${width}`).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: 'dark' });
  expect.soft(told(await narrowCheck(page).analyze()), `${room.name}, 360 dark`).toEqual([]);
}

/** Every room of the record as it stands; `absent`: rooms nothing leads to in it, said by name so that none gets lost. */
export async function checkRooms(page: Page, app: App, absent: readonly string[]): Promise<void> {
  const missing: string[] = [];
  for (const room of [...ROOMS, ...(await waitingRooms(app))]) {
    const path = await pathOf(room, page);
    if (path === null) missing.push(room.name);
    else await checkRoom(page, room, path);
  }
  expect(missing).toEqual(absent);
}
