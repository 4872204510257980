/**
 * What a runner's report counts to. Anything but a test that ran and passed counts as failed: a skipped test guards
 * nothing, a flaky one is not to be trusted, and a runner that stops early would otherwise look green.
 * @typedef {{ passed: number, failed: number, said: string[] }} Count
 */

/** @param {unknown} text */
const shortened = (text) =>
  String(text ?? '')
    // eslint-disable-next-line no-control-regex -- runners colour their messages
    .replaceAll(/\u001b\[[0-9;]*m/g, '')
    .split('\n')
    .filter((line) => !line.includes('/node_modules/'))
    .slice(0, 12)
    .join('\n    ');

/**
 * A runner that exits with an error, writes no report or runs no test has failed, whatever the report says.
 * @param {string} runner
 * @param {number} code
 * @param {Count | null} count
 * @param {string} output what it printed
 * @returns {Count}
 */
export function held(runner, code, count, output) {
  const { passed, failed, said } = count ?? { passed: 0, failed: 0, said: [] };
  const tail = output.trim().split('\n').slice(-15).join('\n    ');
  if (!count)
    return { passed, failed: failed + 1, said: [...said, `${runner} wrote no report (exit ${code})\n    ${tail}`] };
  if (passed + failed === 0) return { passed, failed: 1, said: [...said, `${runner} ran no test\n    ${tail}`] };
  if (code !== 0 && failed === 0)
    return { passed, failed: 1, said: [...said, `${runner} ended with ${code} beside its tests\n    ${tail}`] };
  return { passed, failed, said };
}

/**
 * @param {any} report of `vitest --reporter=json`
 * @returns {Count}
 */
export function countVitest(report) {
  /** @type {Count} */
  const count = { passed: 0, failed: 0, said: [] };
  for (const file of report.testResults) {
    for (const test of file.assertionResults) {
      if (test.status === 'passed') count.passed += 1;
      else {
        count.failed += 1;
        count.said.push(`${file.name}: ${test.fullName} (${test.status})\n    ${shortened(test.failureMessages?.[0])}`);
      }
    }
    // A file that could not be loaded has no tests to show for it.
    if (
      file.status === 'failed' &&
      file.assertionResults.every((/** @type {any} */ test) => test.status === 'passed')
    ) {
      count.failed += 1;
      count.said.push(`${file.name}\n    ${shortened(file.message)}`);
    }
  }
  return count;
}

/**
 * @param {any} report of `playwright test --reporter=json`
 * @returns {Count}
 */
export function countPlaywright(report) {
  /** @type {Count} */
  const count = { passed: 0, failed: 0, said: [] };
  /** @param {any} suite @param {string[]} above */
  const walk = (suite, above) => {
    const titles = [...above, suite.title].filter(Boolean);
    for (const spec of suite.specs ?? [])
      for (const test of spec.tests) {
        // `expected` may also be a test that says it must fail: that is how the check of every page is itself tested.
        if (test.status === 'expected') count.passed += 1;
        else {
          count.failed += 1;
          const error = test.results.findLast((/** @type {any} */ result) => result.error)?.error;
          count.said.push(`${[...titles, spec.title].join(' › ')} (${test.status})\n    ${shortened(error?.message)}`);
        }
      }
    for (const inner of suite.suites ?? []) walk(inner, titles);
  };
  for (const suite of report.suites ?? []) walk(suite, []);
  for (const error of report.errors ?? []) {
    count.failed += 1;
    count.said.push(`playwright\n    ${shortened(error.message)}`);
  }
  return count;
}
