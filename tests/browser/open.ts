import type { Page } from 'playwright/test';

/** Kit puts its route announcer into the page once it runs: from then on links stay on the page, and keys work. */
const running = (page: Page) => page.locator('#svelte-announcer').waitFor({ state: 'attached' });

/** Opens a page and waits until its scripts run; before that a click or a key is the plain browser's. */
export async function open(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await running(page);
}
