import { existsSync } from 'node:fs';
import { runProgram } from './child.js';

/** Chromium without windows, as Debian packages it: the same pages for a quarter less processor time. */
const WITHOUT_WINDOWS = '/usr/bin/chromium-headless-shell';

const places = [
  WITHOUT_WINDOWS,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

const found = () =>
  [process.env.NEXT_TWENTY_CHROMIUM ?? '', ...places].find((path) => path && existsSync(path)) ?? null;

/** What went wrong, or `null`. */
async function installed() {
  console.error('Installing Chromium for the browser tests (once) …');
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium-headless-shell']]) {
    const { code, output } = await runProgram('apt-get', args, { env, quiet: true });
    if (code !== 0) return `apt-get ${args.join(' ')}\n${output}`;
  }
  return null;
}

/**
 * The system's Chromium for the browser tests; installed where we may do so, as root on Debian.
 * @returns {Promise<string>} its path
 * @throws with what to do where there is none
 */
export async function chromium() {
  const mayInstall = process.getuid?.() === 0 && existsSync('/etc/debian_version');
  const wrong =
    process.env.NEXT_TWENTY_CHROMIUM || existsSync(WITHOUT_WINDOWS) || !mayInstall ? null : await installed();
  const there = found();
  if (there) return there;
  if (wrong) throw new Error(`Chromium could not be installed: ${wrong}`);
  throw new Error(
    'The browser tests need Chromium. Install it, or say where it is with NEXT_TWENTY_CHROMIUM=/path/to/it.',
  );
}
