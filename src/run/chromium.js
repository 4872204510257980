import { existsSync } from 'node:fs';
import { runProgram } from './child.js';

const places = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

const found = () =>
  [process.env.NEXT_TWENTY_CHROMIUM ?? '', ...places].find((path) => path && existsSync(path)) ?? null;

/**
 * The system's Chromium for the browser tests; installed where we may do so, as root on Debian.
 * @returns {Promise<string>} its path
 * @throws with what to do where there is none
 */
export async function chromium() {
  const there = found();
  if (there) return there;
  if (process.getuid?.() === 0 && existsSync('/etc/debian_version')) {
    console.error('Installing Chromium for the browser tests (once) …');
    const env = { DEBIAN_FRONTEND: 'noninteractive' };
    for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
      const { code, output } = await runProgram('apt-get', args, { env, quiet: true });
      if (code !== 0) throw new Error(`Chromium could not be installed: apt-get ${args.join(' ')}\n${output}`);
    }
    const installed = found();
    if (installed) return installed;
  }
  throw new Error(
    'The browser tests need Chromium. Install it, or say where it is with NEXT_TWENTY_CHROMIUM=/path/to/it.',
  );
}
