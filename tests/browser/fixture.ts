import { test as base, expect } from 'playwright/test';
import { App } from './app';

type ForEachTest = { nothingLeaves: void };
type ForEachWorker = { app: App };

/**
 * `app`: the worker's own server and data folder; `baseURL` follows it, also after `app.startEmpty()` between tests.
 * Every test fails on a request that leaves the origin, a policy violation or an error on the page, without asking for it.
 */
export const test = base.extend<ForEachTest, ForEachWorker>({
  app: [
    // eslint-disable-next-line no-empty-pattern -- Playwright reads the names out of the braces
    async ({}, use) => {
      const app = await App.start();
      await use(app);
      await app.remove();
    },
    { scope: 'worker' },
  ],
  baseURL: async ({ app }, use) => use(app.origin),
  nothingLeaves: [
    async ({ context, app }, use) => {
      const wrong: string[] = [];
      context.on('request', (request) => {
        const url = new URL(request.url());
        const ours = [app.origin, app.origin.replace('127.0.0.1', 'localhost')]; // the other name leads to the first
        if (/^https?:$/.test(url.protocol) && !ours.includes(url.origin)) wrong.push(`left the origin: ${url}`);
      });
      context.on('console', (message) => {
        if (/content security policy/i.test(message.text())) wrong.push(message.text());
      });
      context.on('weberror', (webError) => wrong.push(`error on the page: ${webError.error().message}`));
      await use();
      expect(wrong).toEqual([]);
    },
    { auto: true },
  ],
});

export { expect };
