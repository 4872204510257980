import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const read = (path: string) => readFileSync(path, 'utf8');

it.each(['newsreader', 'source-sans-3'])('%s is served with the licence of its package', (face) => {
  const licence = read(`node_modules/@fontsource-variable/${face}/LICENSE`);
  expect(licence).toContain('SIL Open Font License, Version 1.1');
  expect(read(`static/licences/${face}.txt`)).toBe(licence);
});

it('no typeface comes from another place than its package', () => {
  const sources = [...read('src/lib/ui/fonts.css').matchAll(/url\('?([^')]*)'?\)/g)].map(([, from = '']) => from);
  expect(sources).toHaveLength(7);
  for (const from of sources)
    expect(from).toMatch(/^@fontsource-variable\/(newsreader|source-sans-3)\/files\/.*\.woff2$/);
});
