import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkValueIds, fromMemory } from './check-values';

const here = new URL('./', import.meta.url);
const tests = readdirSync(here)
  .filter((name) => name.endsWith('.test.ts') && name !== 'every-entry.test.ts')
  .map((name) => readFileSync(new URL(name, here), 'utf8'))
  .join('\n');

describe('the published check values', () => {
  it('are there once each, and each is used by a test', () => {
    expect(checkValueIds.length).toBeGreaterThanOrEqual(50);
    expect(new Set(checkValueIds).size).toBe(checkValueIds.length);
    expect(checkValueIds.filter((id) => !tests.includes(`'${id}'`))).toEqual([]);
  });

  it('say so in the title of the test where the printed value is from memory', () => {
    expect(fromMemory.length).toBeGreaterThan(0);
    for (const id of fromMemory) {
      const title =
        tests
          .slice(0, tests.indexOf(`'${id}'`))
          .split(/\bit\(/)
          .at(-1) ?? '';
      expect(title, id).toContain('(from memory)');
    }
  });
});
