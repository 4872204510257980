import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as Record<
  'dependencies' | 'devDependencies',
  Record<string, string>
>;
const lock = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
  packages: Record<string, { hasInstallScript?: boolean; resolved?: string; optional?: boolean }>;
};

describe('what is installed', () => {
  it.each(Object.keys({ ...dependencies, ...devDependencies }))('%s has its reason in DEVELOPERS.md', (name) => {
    expect(readFileSync('DEVELOPERS.md', 'utf8')).toContain(`\`${name}\``);
  });

  it('runs no script of its own', () => {
    expect(readFileSync('.npmrc', 'utf8')).toMatch(/^ignore-scripts=true$/m);
    const asking = Object.entries(lock.packages).filter(([, { hasInstallScript }]) => hasInstallScript);
    expect(asking.filter(([, { optional }]) => !optional).map(([name]) => name)).toEqual([]);
    expect(Object.keys(lock.packages).length).toBeGreaterThan(100);
  });

  it('comes from the public registry', () => {
    const from = Object.entries(lock.packages).flatMap(([name, { resolved }]) => (name && resolved ? [resolved] : []));
    expect(from.filter((address) => !address.startsWith('https://registry.npmjs.org/'))).toEqual([]);
  });
});
