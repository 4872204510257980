import { ESLint } from 'eslint';
import { beforeAll, describe, expect, it } from 'vitest';

/** What each folder may not reach, written out here once more: a wall taken out of the config must fail a test. */
const mayImport: Record<string, string[]> = {
  turns: [],
  format: [],
  recording: [],
  statistics: [],
  model: ['statistics', 'format', 'recording', 'turns'],
  intake: ['model', 'statistics', 'format', 'recording', 'turns'],
  audit: ['model', 'statistics', 'format', 'recording', 'turns'],
  safety: ['model', 'statistics', 'format', 'recording', 'turns'],
  practice: ['audit', 'safety', 'intake', 'model', 'statistics', 'format', 'recording', 'turns'],
  rules: ['audit', 'safety', 'intake', 'model', 'statistics', 'format', 'recording', 'turns'],
  words: ['practice', 'rules', 'audit', 'safety', 'intake', 'model', 'statistics', 'format', 'recording', 'turns'],
  assess: [
    'words',
    'practice',
    'rules',
    'audit',
    'safety',
    'intake',
    'model',
    'statistics',
    'format',
    'recording',
    'turns',
  ],
  rooms: [
    'assess',
    'words',
    'practice',
    'rules',
    'audit',
    'safety',
    'intake',
    'model',
    'statistics',
    'format',
    'recording',
    'turns',
  ],
  charts: [],
  ui: ['charts', 'recording'],
  server: [
    'rooms',
    'assess',
    'words',
    'practice',
    'rules',
    'audit',
    'safety',
    'intake',
    'model',
    'statistics',
    'format',
    'recording',
    'turns',
  ],
};
const folders = Object.keys(mayImport);
const pure = folders.filter((folder) => !['charts', 'ui', 'server'].includes(folder));

const walls = [
  'no-restricted-imports',
  '@typescript-eslint/no-restricted-imports',
  'no-restricted-syntax',
  'no-restricted-properties',
  'ours/no-sentence',
];

let eslint: ESLint;
beforeAll(async () => {
  eslint = new ESLint();
  await eslint.lintText('export {};\n', { filePath: 'src/lib/model/first.ts' }); // the first one reads the config
}, 60_000);

/** The lines of a text (one statement each) that run into no wall in a file of this name. */
async function free(filePath: string, lines: readonly string[], wrap = (code: string) => code): Promise<string[]> {
  const code = wrap(lines.join('\n'));
  const [result] = await eslint.lintText(`${code}\n`, { filePath });
  const fatal = result?.messages.find((message) => message.fatal);
  if (!result || fatal) throw new Error(`${filePath} was not linted: ${fatal?.message ?? 'no result'}`);
  const hit = new Set(result.messages.flatMap(({ ruleId, line }) => (ruleId && walls.includes(ruleId) ? [line] : [])));
  const before = code.split('\n').indexOf(lines[0] ?? '');
  return lines.filter((_, index) => !hit.has(before + index + 1));
}

/** Every way to take something from a module at once. */
const ways = (from: string) => [
  `import { a as a${from.length} } from '${from}';`,
  `import '${from}';`,
  `export { b } from '${from}';`,
  `export * from '${from}';`,
];

describe.each(folders)('src/lib/%s', (folder) => {
  const allowed = mayImport[folder] ?? [];
  const closed = folders.filter((other) => other !== folder && !allowed.includes(other));

  it('lets in what it may use', async () => {
    const lines = [...ways('./own'), ...allowed.flatMap((other) => ways(`../${other}/thing`))];
    expect(await free(`src/lib/${folder}/clean.ts`, lines)).toEqual(lines);
  });

  it(`keeps out ${closed.join(', ')}`, async () => {
    const lines = closed.flatMap((other) =>
      [`../${other}`, `../${other}/thing`, `./../${other}/thing`, `../../lib/${other}/thing`, `$lib/${other}`].flatMap(
        ways,
      ),
    );
    expect(await free(`src/lib/${folder}/violating.ts`, lines)).toEqual([]);
    const deeper = closed.flatMap((other) => ways(`../../${other}/thing`));
    expect(await free(`src/lib/${folder}/deeper/violating.ts`, deeper)).toEqual([]);
  });

  it('keeps routes and commands out', async () => {
    const lines = ['../../routes/+page.server', '../../cli/assess', '../../run/serve.js'].flatMap(ways);
    expect(await free(`src/lib/${folder}/violating.ts`, lines)).toEqual([]);
  });
});

describe.each(pure)('src/lib/%s is pure', (folder) => {
  it('no Node, no Svelte, no Kit, no alias', async () => {
    const modules = [
      'node:fs',
      'fs',
      'fs/promises',
      'crypto',
      'svelte',
      'svelte/store',
      '@sveltejs/kit',
      '$app/environment',
      '$lib/model',
    ];
    const lines = modules.flatMap(ways);
    expect(await free(`src/lib/${folder}/violating.ts`, lines)).toEqual([]);
  });

  it('no clock, no chance, no dynamic import', async () => {
    const lines = [
      'export const a = Math.random();',
      'const { random } = Math;',
      'export const b = Date.now();',
      'export const c = new Date();',
      'export const d = new Date;',
      'export const e = Date();',
      'export const f = performance.now();',
      "export const g = import('./own');",
      "export const h = await import('../statistics');",
    ];
    expect(await free(`src/lib/${folder}/violating.ts`, lines)).toEqual([]);
  });

  it('but a moment or a seed passed in, and packages of pure functions', async () => {
    const lines = [
      "import { z } from 'zod';",
      'export const day = (now: string) => new Date(now);',
      'export const most = Math.max(1, 2);',
      'export const parsed = Date.parse;',
    ];
    expect(await free(`src/lib/${folder}/clean.ts`, lines)).toEqual(lines);
  });
});

describe.each(['statistics', 'audit', 'safety', 'practice', 'rules', 'assess'])('src/lib/%s', (folder) => {
  it('says no sentence, whatever is put into it', async () => {
    const lines = [
      "export const a = 'No case counts for it yet.';",
      'export const b = `${n} cases count for this step; a goal needs ${n}. ${n} more will do.`;',
      'export const c = `Only ${n} of the ${n} steps you usually time are here. Is it complete?`;',
      "export const d = because('of the two there is nothing left to compare!');",
      'export const e = { said: `the step, ${n} and so on.` };',
    ];
    expect(await free(`src/lib/${folder}/violating.ts`, lines)).toEqual([]);
    expect(await free('src/lib/words/clean.ts', lines)).toEqual(lines);
  });

  it('but codes, labels, the name of a method, a source, what a key means', async () => {
    const lines = [
      "export const a = { code: 'too-few-cases', cases: 3 };",
      'export const b = `two groups of times (about ${n} and about ${n})`;',
      'export const c = `This step alone; Huber regression, t with ${n} degrees of freedom`;',
      "export const d = 'Posterior capsule rupture, 961,208 operations (Eye 2024, doi 10.1038/s41433-024-03344-2)';",
      "export const e = 'Cortex. Lens.';",
      "export const f = z.string().describe('Counted from 1, the heading being row 1.');",
    ];
    expect(await free(`src/lib/${folder}/clean.ts`, lines)).toEqual(lines);
  });
});

describe('what reaches the browser', () => {
  const page = (script: string) => `<script lang="ts">\n${script}\n</script>\n\n<p>text</p>`;
  const notForBrowsers = folders.filter((folder) => !['ui', 'charts', 'recording'].includes(folder));
  const values = [
    ...notForBrowsers.map((folder) => `import { ${folder} } from '$lib/${folder}/thing';`),
    "import { z } from 'zod';",
  ];
  const types = notForBrowsers.map((folder) => `import type { ${folder} } from '$lib/${folder}/thing';`);
  const fine = ["import { b } from '$lib/charts/geometry';", "import Page from '$lib/ui/Page.svelte';", ...types];

  it.each(['src/routes/choose/+page.svelte', 'src/lib/ui/Thing.svelte'])(
    '%s takes values from ui, charts and recording only',
    async (at) => {
      expect(await free(at, values, page)).toEqual([]);
      expect(await free(at, fine, page)).toEqual(fine);
    },
  );

  it.each([
    'src/routes/choose/+page.ts',
    'src/routes/+layout.ts',
    'src/lib/ui/state.svelte.ts',
    'src/routes/read.worker.ts',
  ])('%s does too', async (at) => {
    expect(await free(at, values)).toEqual([]);
  });

  it('a chart takes nothing of ours, not even a type', async () => {
    const at = 'src/lib/charts/Chart.svelte';
    const lines = [
      ...folders
        .filter((folder) => folder !== 'charts')
        .map((folder) => `import { ${folder} as a_${folder} } from '../${folder}/thing';`),
    ];
    expect(await free(at, [...lines, ...types], page)).toEqual([]);
    const own = ["import { a } from './geometry';", "import { scaleLog } from 'd3';"];
    expect(await free(at, own, page)).toEqual(own);
  });
});

describe('src/cli', () => {
  it('never touches the store', async () => {
    const lines = ['$lib/server/storage', '../lib/server/storage/port', '../lib/server/storage/memory'].flatMap(ways);
    expect(await free('src/cli/violating.ts', lines)).toEqual([]);
    const clean = ['$lib/server/content', '../lib/rooms'].flatMap(ways);
    expect(await free('src/cli/clean.ts', clean)).toEqual(clean);
  });
});
