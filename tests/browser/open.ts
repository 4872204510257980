import type { Page } from 'playwright/test';

/** Kit puts its route announcer into the page once it runs: from then on links stay on the page, and keys work. */
const running = (page: Page) => page.locator('#svelte-announcer').waitFor({ state: 'attached' });

/** Opens a page and waits until its scripts run; before that a click or a key is the plain browser's. */
export async function open(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await running(page);
}

/** The page as the server sent it; its scripts run when `run` is called, as on a slow machine. */
export async function openedSlowly(page: Page, path: string): Promise<{ run: () => Promise<void> }> {
  let release = () => {};
  const held = new Promise<void>((resolve) => (release = resolve));
  await page.route('**/_app/**/*.js', async (route) => {
    await held;
    await route.continue();
  });
  await page.goto(path, { waitUntil: 'commit' });
  await page.locator('main h1').waitFor();
  return {
    run: async () => {
      release();
      await running(page);
    },
  };
}
