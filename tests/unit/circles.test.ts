import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import ts from 'typescript';
import { expect, it } from 'vitest';

type Imports = Readonly<Record<string, readonly string[]>>;

/** What a file imports, re-exports or names in a type, types included; of a component, what its scripts do. */
function specifiersOf(path: string, text: string): string[] {
  const code = path.endsWith('.svelte')
    ? [...text.matchAll(/<script[^>]*>([\s\S]*?)<\/script>/g)].map(([, script]) => script).join('\n')
    : text;
  return ts.preProcessFile(code, true, true).importedFiles.map(({ fileName }) => fileName);
}

/** The file that a specifier leads to; `null` for a package and for what the framework writes. */
function fileOf(from: string, specifier: string, files: ReadonlySet<string>): string | null {
  if (!specifier.startsWith('.') && !specifier.startsWith('$lib/')) return null;
  const base = specifier.startsWith('$lib/')
    ? specifier.replace('$lib', 'src/lib')
    : normalize(join(dirname(from), specifier)).replaceAll('\\', '/');
  const found = [base, `${base}.ts`, `${base}.js`, `${base}/index.ts`].find((each) => files.has(each));
  if (!found && !/\/\$types$|\.css$/.test(specifier))
    throw new Error(`${from} imports ${specifier}, which is not there`);
  return found ?? null;
}

function importsOf(texts: Readonly<Record<string, string>>): Imports {
  const files = new Set(Object.keys(texts));
  return Object.fromEntries(
    Object.entries(texts).map(([path, text]) => [
      path,
      specifiersOf(path, text).flatMap((specifier) => fileOf(path, specifier, files) ?? []),
    ]),
  );
}

/** Ways round that lead back to a file they came through, each from that file on; empty where imports run one way. */
function circlesOf(imports: Imports): string[][] {
  const done = new Set<string>();
  const circles: string[][] = [];
  const follow = (file: string, way: readonly string[]): void => {
    const at = way.indexOf(file);
    if (at >= 0) circles.push([...way.slice(at), file]);
    if (at >= 0 || done.has(file)) return;
    for (const next of imports[file] ?? []) follow(next, [...way, file]);
    done.add(file);
  };
  for (const file of Object.keys(imports)) follow(file, []);
  return circles;
}

it('no file of src imports round in a circle, types included', () => {
  const paths = readdirSync('src', { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.(ts|js|svelte)$/.test(path))
    .map((path) => `src/${path.replaceAll('\\', '/')}`);
  const imports = importsOf(Object.fromEntries(paths.map((path) => [path, readFileSync(path, 'utf8')])));
  expect(Object.values(imports).flat().length).toBeGreaterThan(1000);
  expect(circlesOf(imports)).toEqual([]);
});

it('finds a circle of types, of values, through a component and through an index', () => {
  const imports = importsOf({
    'src/lib/a.ts': "import type { B } from './b';\nexport const a = 1;",
    'src/lib/b.ts': "import { c } from './c';\nexport type B = typeof c;",
    'src/lib/c.ts': "export { a as c } from '$lib/a';",
    'src/lib/D.svelte': '<script lang="ts">\n  import { e } from \'./e\';\n</script>\n<p>{e}</p>',
    'src/lib/e/index.ts': "import D from '../D.svelte';\nexport const e = D;",
    'src/lib/f.ts': "export type F = import('./g').G;",
    'src/lib/g.ts': "import type { F } from './f';\nexport type G = F;",
    'src/lib/clear.ts': "import { a } from './a';\nimport { z } from 'zod';\nexport const it = [a, z];",
  });
  expect(circlesOf(imports)).toEqual([
    ['src/lib/a.ts', 'src/lib/b.ts', 'src/lib/c.ts', 'src/lib/a.ts'],
    ['src/lib/D.svelte', 'src/lib/e/index.ts', 'src/lib/D.svelte'],
    ['src/lib/f.ts', 'src/lib/g.ts', 'src/lib/f.ts'],
  ]);
});
