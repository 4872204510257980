import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import { builtinModules } from 'node:module';
import ts from 'typescript-eslint';

/**
 * The walls of the house: what each folder of src/lib may import beside itself.
 * Imports run one way only; tests/unit/walls.test.ts proves that a violation fails.
 */
const FOUNDATION = ['statistics', 'format', 'persons', 'recording', 'turns'];
const MODEL = ['model', ...FOUNDATION];
const FACTS = ['audit', 'safety', 'intake', ...MODEL];
const JUDGED = ['practice', 'rules', ...FACTS];
const MAY_IMPORT = {
  turns: [],
  format: [],
  persons: [],
  recording: [],
  statistics: [],
  model: FOUNDATION,
  intake: MODEL,
  audit: MODEL,
  safety: MODEL,
  practice: FACTS,
  rules: FACTS,
  words: JUDGED,
  assess: ['words', ...JUDGED],
  rooms: ['assess', 'words', ...JUDGED],
  charts: [],
  ui: ['charts', 'recording'],
  server: ['rooms', 'assess', 'words', ...JUDGED],
};
const FOLDERS = Object.keys(MAY_IMPORT);
const PURE = FOLDERS.filter((folder) => !['charts', 'ui', 'server'].includes(folder));

const closedTo = (/** @type {string} */ folder) =>
  FOLDERS.filter(
    (other) => other !== folder && !MAY_IMPORT[/** @type {keyof typeof MAY_IMPORT} */ (folder)].includes(other),
  );

/** A relative or $lib path into one of the folders. */
const into = (/** @type {string[]} */ folders) => `^((\\.{1,2}/)+(lib/)?|\\$lib/)(${folders.join('|')})(/|$)`;

const wall = (/** @type {string} */ folder) => {
  const pure = PURE.includes(folder);
  return {
    name: `wall: ${folder}`,
    files: [`src/lib/${folder}/**/*.ts`],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: into(closedTo(folder)),
              message: `${folder} may import only: ${MAY_IMPORT[/** @type {keyof typeof MAY_IMPORT} */ (folder)].join(', ') || 'nothing of ours'}.`,
            },
            { regex: '(^|/)(routes|cli|run)/', message: 'Nothing in lib imports a route or a command.' },
            ...(pure
              ? [
                  {
                    regex: '^(node:|svelte|@sveltejs/|\\$(app|env|lib|service-worker))',
                    message: `${folder} is pure: no Svelte, no Kit, no Node.`,
                  },
                  {
                    regex: `^(${builtinModules.filter((name) => !name.startsWith('_')).join('|')})(/|$)`,
                    message: `${folder} is pure: no Node.`,
                  },
                ]
              : []),
          ],
        },
      ],
      ...(pure
        ? {
            'no-restricted-syntax': [
              'error',
              { selector: 'ImportExpression', message: 'Static imports only.' },
              {
                selector: "NewExpression[callee.name='Date'][arguments.length=0]",
                message: 'No clock in the pure core: pass the moment in.',
              },
              {
                selector: "CallExpression[callee.name='Date']",
                message: 'No clock in the pure core: pass the moment in.',
              },
            ],
            'no-restricted-properties': [
              'error',
              { object: 'Math', property: 'random', message: 'No chance in the pure core: pass a seed in.' },
              { object: 'Date', property: 'now', message: 'No clock in the pure core: pass the moment in.' },
              { object: 'performance', property: 'now', message: 'No clock in the pure core.' },
            ],
          }
        : {}),
    },
  };
};

/**
 * The core returns codes with their numbers; words/ says them. A sentence is four words or more with a full stop, a question
 * or an exclamation mark at the end of them, whatever is put in between.
 * @type {import('eslint').Rule.RuleModule}
 */
const noSentence = {
  meta: {
    type: 'problem',
    schema: [],
    messages: { sentence: 'A sentence belongs in words/: return a code with its numbers.' },
  },
  create(context) {
    // What a key of a file means, in its schema.
    const describes = (/** @type {import('eslint').Rule.Node} */ { parent }) =>
      parent.type === 'CallExpression' &&
      parent.callee.type === 'MemberExpression' &&
      parent.callee.property.type === 'Identifier' &&
      parent.callee.property.name === 'describe';
    const check = (/** @type {import('eslint').Rule.Node} */ node, /** @type {string} */ text) => {
      if (describes(node)) return;
      if (/[.?!](\s|$)/.test(text) && text.trim().split(/\s+/).length >= 4)
        context.report({ node, messageId: 'sentence' });
    };
    return {
      Literal: (node) => typeof node.value === 'string' && check(node, node.value),
      TemplateLiteral: (node) => check(node, node.quasis.map(({ value }) => value.cooked).join('…')),
    };
  },
};

export default ts.config(
  { ignores: ['node_modules/', 'build/', '.svelte-kit/', '.tools/', 'gallery/', 'test-results/'] },
  js.configs.recommended,
  ...ts.configs.recommended,
  ...svelte.configs.recommended,
  { languageOptions: { globals: { ...globals.node, ...globals.browser } } },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser } },
  },
  {
    rules: {
      'no-undef': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      'svelte/no-navigation-without-resolve': 'off',
      'no-restricted-exports': ['error', { restrictDefaultExports: { direct: false } }],
    },
  },
  {
    // An item that must be there is read by `itemAt`, which throws where it is not. Not in the loops over numbers: there
    // one function for rows of every type made Choose two to three times slower, so a bound loop reads `row[at]!`.
    name: 'nothing claimed to be there',
    files: ['src/**/*.ts', 'src/**/*.svelte'],
    ignores: ['src/lib/{statistics,audit,practice,safety}/**'],
    rules: { '@typescript-eslint/no-non-null-assertion': 'error' },
  },
  ...FOLDERS.map(wall),
  {
    name: 'wall: no sentence in the core',
    files: ['src/lib/{statistics,audit,safety,practice,rules,assess}/**/*.ts'],
    // Guidance for a page that is still empty, as content hands it in for the others.
    ignores: ['src/lib/rules/defaults.ts'],
    plugins: { ours: { rules: { 'no-sentence': noSentence } } },
    rules: { 'ours/no-sentence': 'error' },
  },
  {
    // What a browser gets: pages, and the modules beside them that are not for the server alone.
    name: 'wall: what reaches the browser',
    files: [
      'src/**/*.svelte',
      'src/**/*.svelte.ts',
      'src/routes/**/+page.ts',
      'src/routes/**/+layout.ts',
      'src/**/*.worker.ts',
      'src/service-worker.ts',
    ],
    rules: {
      '@typescript-eslint/no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: into(FOLDERS.filter((folder) => !['ui', 'charts', 'recording'].includes(folder))),
              message: 'A .svelte file takes values only from ui, charts and recording (types from anywhere).',
              allowTypeImports: true,
            },
            { regex: '^zod$', message: 'zod stays on the server.' },
          ],
        },
      ],
    },
  },
  {
    name: 'wall: charts in Svelte',
    files: ['src/lib/charts/**/*.svelte'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: into(FOLDERS.filter((folder) => folder !== 'charts')),
              message: 'charts imports nothing of ours.',
            },
          ],
        },
      ],
    },
  },
  {
    name: 'wall: cli',
    files: ['src/cli/**/*.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        { patterns: [{ regex: 'server/storage', message: 'The command line never touches the store.' }] },
      ],
    },
  },
);
