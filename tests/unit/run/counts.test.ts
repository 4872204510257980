import { describe, expect, it } from 'vitest';
import { countPlaywright, countVitest, held } from '../../../src/run/counts.js';

const vitestFile = (statuses: string[], over: object = {}) => ({
  name: 'a.test.ts',
  status: statuses.every((status) => status === 'passed') ? 'passed' : 'failed',
  message: '',
  assertionResults: statuses.map((status) => ({ status, fullName: `is ${status}`, failureMessages: [`${status}!`] })),
  ...over,
});

const playwrightSpec = (status: string, expectedStatus = 'passed') => ({
  title: status,
  tests: [{ status, expectedStatus, results: [{ error: { message: 'what went wrong' } }] }],
});

describe('what a report counts to', () => {
  it('counts anything but passed as failed', () => {
    const count = countVitest({
      testResults: [vitestFile(['passed', 'failed', 'skipped', 'todo', 'pending', 'passed'])],
    });
    expect(count).toMatchObject({ passed: 2, failed: 4 });
    expect(count.said[0]).toContain('failed!');
  });

  it('counts a file that could not be loaded', () => {
    const broken = vitestFile([], { status: 'failed', message: 'Cannot find module' });
    const afterAll = vitestFile(['passed'], { status: 'failed', message: 'afterAll threw' });
    expect(countVitest({ testResults: [broken, afterAll] })).toMatchObject({ passed: 1, failed: 2 });
  });

  it('counts flaky and skipped browser tests as failed, and one that has to fail and does as passed', () => {
    const report = {
      suites: [
        {
          title: 'a.spec.ts',
          specs: [playwrightSpec('expected'), playwrightSpec('flaky'), playwrightSpec('skipped', 'skipped')],
          suites: [{ title: 'inner', specs: [playwrightSpec('unexpected'), playwrightSpec('expected', 'failed')] }],
        },
      ],
      errors: [{ message: 'the config is broken' }],
    };
    const count = countPlaywright(report);
    expect(count).toMatchObject({ passed: 2, failed: 4 });
    expect(count.said).toContainEqual(expect.stringContaining('a.spec.ts › inner › unexpected'));
  });
});

describe('a runner', () => {
  const three = { passed: 3, failed: 0, said: [] };

  it('passes with its tests', () => {
    expect(held('runner', 0, three, '')).toEqual(three);
    expect(held('runner', 1, { passed: 2, failed: 1, said: ['x'] }, '')).toEqual({ passed: 2, failed: 1, said: ['x'] });
  });

  it('fails when it ends with an error, writes no report or runs no test', () => {
    expect(held('runner', 1, three, 'Unhandled rejection')).toMatchObject({ passed: 3, failed: 1 });
    expect(held('runner', 0, null, '')).toMatchObject({ passed: 0, failed: 1 });
    expect(held('runner', 0, { passed: 0, failed: 0, said: [] }, '')).toMatchObject({ failed: 1 });
  });
});
