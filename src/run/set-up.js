import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bin, runNode, runProgram } from './child.js';
import { hashOf, projectFolder, unlessStamped } from './stamps.js';

const installStamp = 'node_modules/.next-twenty-installed';
const buildStamp = 'build/.built-from';
const sources = [
  'src',
  'content',
  'demo-data',
  'static',
  'package.json',
  'package-lock.json',
  'svelte.config.js',
  'vite.config.ts',
  'tsconfig.json',
];

const nodeMajor = process.versions.node.split('.')[0];

/** @returns {string | null} why this Node cannot run the program */
export function tooOld() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return null;
  return `This needs Node 20.19 or later; this is ${process.versions.node}.`;
}

/** Somebody may have installed by hand: npm writes down what it put there, at the very end. */
function installedByHand() {
  if (existsSync(join(projectFolder, installStamp))) return false;
  try {
    /** @param {string} file @returns {[string, { version?: string, optional?: boolean }][]} */
    const packagesOf = (file) => Object.entries(JSON.parse(readFileSync(join(projectFolder, file), 'utf8')).packages);
    const there = new Map(packagesOf('node_modules/.package-lock.json'));
    return packagesOf('package-lock.json').every(
      ([path, { version, optional }]) => path === '' || optional || there.get(path)?.version === version,
    );
  } catch {
    return false;
  }
}

/** Installs what the lock file names, when what is there was made from another one. @throws when npm fails */
export function installIfStale() {
  const stamp = `${hashOf(['package-lock.json', '.npmrc'])} ${process.platform} ${process.arch} ${nodeMajor}`;
  return unlessStamped(installStamp, stamp, async () => {
    if (installedByHand()) return;
    console.error('Installing what this program is built with (once, about a minute) …');
    const npm = process.env.npm_execpath;
    // Tools are needed to build, whatever NODE_ENV says.
    const args = ['ci', '--include=dev', '--no-fund', '--no-audit', '--loglevel=error'];
    const { code } = npm ? await runNode([npm, ...args]) : await runProgram('npm', args);
    if (code !== 0) throw new Error('npm could not install the packages; its message is above.');
  });
}

/** Builds the app when its sources have changed. @throws when the build fails */
export function buildIfStale() {
  return unlessStamped(buildStamp, hashOf(sources), async () => {
    console.error('Building (after a change, a few seconds) …');
    const { code, output } = await runNode([bin('vite/bin/vite.js'), 'build', '--logLevel', 'warn'], { quiet: true });
    if (code === 0) return;
    process.stderr.write(output);
    throw new Error('The app could not be built; the reason is above.');
  });
}
