import { defineConfig } from 'playwright/test';

/**
 * What Chromium makes ready for a person in every new window, in processes of their own: pages for its address bar and
 * a spare renderer. A test opens a window of its own, so that this was more than half of its processor time.
 * A later --disable-features replaces an earlier one: the rest of the list is Playwright's (its chromiumSwitches).
 */
const NOT_FOR_TESTS = [
  'SpareRendererForSitePerProcess',
  'WebUIOmniboxAimPopup',
  'WebUIOmniboxPopup',
  'AimEnabled',
  'AvoidCorsURLLoaderRestartOnRedirect',
  'AvoidUnnecessaryBeforeUnloadCheckSync',
  'DestroyProfileOnBrowserClose',
  'HttpsFirstBalancedModeAutoEnable',
  'HttpsUpgrades',
  'LensOverlay',
  'MediaRouter',
  'NetworkTimeServiceQuerying',
  'OptimizationHints',
  'PaintHolding',
  'PreconnectToSearch',
  'ThirdPartyStoragePartitioning',
];

export default defineConfig({
  testDir: '.',
  outputDir: '../../test-results',
  // Each worker has a server and a data folder of its own (fixture.ts): a record belongs to one surgeon and one server.
  workers: 2,
  retries: 0,
  forbidOnly: true,
  timeout: 60_000,
  expect: { timeout: 10_000 },
  reporter: 'line',
  use: {
    browserName: 'chromium',
    // The worker of the note fetches every file of the program for each new window: note.spec.ts alone lets it in.
    serviceWorkers: 'block',
    // What is not there is said after a quarter of a minute, not when the whole test runs out of time.
    actionTimeout: 15_000,
    navigationTimeout: 30_000,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    launchOptions: {
      executablePath: process.env.NEXT_TWENTY_CHROMIUM ?? '/usr/bin/chromium',
      args: [
        '--headless',
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
        `--disable-features=${NOT_FOR_TESTS.join()}`,
      ],
    },
  },
});
