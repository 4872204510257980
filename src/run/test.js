import { mkdirSync, mkdtempSync, readFileSync, rmSync, statfsSync } from 'node:fs';
import { join } from 'node:path';
import { bin, runNode } from './child.js';
import { chromium } from './chromium.js';
import { countPlaywright, countVitest, held } from './counts.js';
import { reasonOf } from './reason.js';
import { buildIfStale, installIfStale, tooOld } from './set-up.js';
import { projectFolder } from './stamps.js';

/**
 * `npm test`: everything this project checks, from a fresh clone on. Ends with one line, `N passed, N failed`.
 * @typedef {import('./counts.js').Count} Count
 */

const MEMORY = '/dev/shm';
const ROOM_NEEDED = 2e9;

/**
 * Where tests write: in memory where Linux has room for it. Every change the program acknowledges waits for the disk,
 * and tests make thousands; what a disk may lose is tried on one of our own (tests/storage/campaign).
 */
function inMemory() {
  try {
    const { bavail, bsize } = statfsSync(MEMORY);
    return bavail * bsize > ROOM_NEEDED ? mkdtempSync(join(MEMORY, 'next-twenty-')) : null;
  } catch {
    return null; // not Linux
  }
}

const scratch = inMemory();
if (scratch) {
  process.env.TMPDIR = scratch;
  process.once('exit', () => rmSync(scratch, { recursive: true, force: true }));
}

const reports = join(projectFolder, '.tools/test-reports');

/** @param {number} since */
const seconds = (since) => `${((performance.now() - since) / 1000).toFixed(0)} s`;

/**
 * Types, lint and format count one each.
 * @param {string} name
 * @param {string[]} args
 * @returns {Promise<Count>}
 */
async function check(name, args) {
  const begun = performance.now();
  const { code, output } = await runNode(args, { quiet: true });
  console.log(`${code === 0 ? 'passed' : 'FAILED'}  ${name}  (${seconds(begun)})`);
  return code === 0
    ? { passed: 1, failed: 0, said: [] }
    : { passed: 0, failed: 1, said: [`${name}\n${output.trim()}`] };
}

/**
 * @param {string} path
 * @param {(report: any) => Count} count
 */
function countedIn(path, count) {
  try {
    return count(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    return null; // none, or broken off: the same
  }
}

/**
 * @param {string} name
 * @param {string} file the runner's JSON report
 * @param {string[]} args
 * @param {(report: any) => Count} count
 * @param {Record<string, string>} [env]
 * @returns {Promise<Count>}
 */
async function suite(name, file, args, count, env) {
  const begun = performance.now();
  const path = join(reports, file);
  rmSync(path, { force: true });
  const { code, output } = await runNode(args, { quiet: true, env });
  const outcome = held(name, code, countedIn(path, count), output);
  console.log(
    `${outcome.failed === 0 ? 'passed' : 'FAILED'}  ${name}: ${outcome.passed} passed, ${outcome.failed} failed  (${seconds(begun)})`,
  );
  return outcome;
}

/** @returns {Promise<Count>} */
async function browserTests() {
  try {
    const args = [
      bin('playwright/cli.js'),
      'test',
      '--config',
      'tests/browser/playwright.config.ts',
      '--reporter=json',
    ];
    const file = 'playwright.json';
    const env = { PLAYWRIGHT_JSON_OUTPUT_FILE: join(reports, file), NEXT_TWENTY_CHROMIUM: await chromium() };
    return await suite('browser tests', file, args, countPlaywright, env);
  } catch (why) {
    return { passed: 0, failed: 1, said: [reasonOf(why)] };
  }
}

/**
 * The app the browser tests look at. Building it is not a test of its own; failing to build is a failure.
 * @returns {Promise<Count>}
 */
async function built() {
  try {
    await buildIfStale();
    return { passed: 0, failed: 0, said: [] };
  } catch (why) {
    await runNode([bin('@sveltejs/kit/svelte-kit.js'), 'sync'], { quiet: true }); // the types of the pages, for the checks below
    return { passed: 0, failed: 1, said: [reasonOf(why)] };
  }
}

/** Everything is run and reported even when something before it fails. @returns {Promise<Count[]>} */
async function all() {
  const old = tooOld();
  if (old) throw new Error(old);
  await installIfStale();
  mkdirSync(reports, { recursive: true });
  // Each of these keeps one core busy; the tests after them use all there are.
  const format = check('format', [bin('prettier/bin/prettier.cjs'), '--check', '.', '--log-level', 'warn']);
  const app = await built(); // types and lint read what the build writes of the pages
  return [
    app,
    ...(await Promise.all([
      check('lint', [bin('eslint/bin/eslint.js'), '.', '--max-warnings', '0']),
      check('types', [bin('svelte-check/bin/svelte-check'), '--tsgo', '--fail-on-warnings', '--output', 'human']),
      // Here "resolved" means "durable": a promise nobody waits for is a change that may be lost.
      check('promises and switches', [bin('oxlint/bin/oxlint'), '--max-warnings', '0']),
      format,
    ])),
    await suite(
      'unit, published and storage tests',
      'vitest.json',
      [
        bin('vitest/vitest.mjs'),
        'run',
        '--maxWorkers=100%', // by itself it leaves a core to the person at work, and so one of two
        '--reporter=json',
        `--outputFile=${join(reports, 'vitest.json')}`,
      ],
      countVitest,
    ),
    ...(app.failed === 0 ? [await browserTests()] : []),
  ];
}

const begun = performance.now();
/** @type {Count[]} */
let counts;
try {
  counts = await all();
} catch (why) {
  counts = [{ passed: 0, failed: 1, said: [reasonOf(why)] }];
}
for (const said of counts.flatMap((count) => count.said)) console.log(`\n✗ ${said}`);
const passed = counts.reduce((sum, count) => sum + count.passed, 0);
const failed = counts.reduce((sum, count) => sum + count.failed, 0);
console.log(`\n${seconds(begun)}`);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
