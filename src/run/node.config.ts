import { join } from 'node:path';
import { defineConfig } from 'vite';

/**
 * Bundles one entry of what runs in Node beside the app (the command line, benches, gallery, invented surgeons) with the
 * packages it uses: starting from a bundle takes half of what running TypeScript on the fly would, and needs no other tool.
 * The entry comes by environment from tool.js.
 */
const { NEXT_TWENTY_ENTRY: entry, NEXT_TWENTY_OUT: outDir } = process.env;
if (!entry || !outDir) throw new Error('tool.js says what to bundle');

export default defineConfig({
  root: process.cwd(),
  publicDir: false,
  logLevel: 'warn',
  resolve: { alias: { $lib: join(process.cwd(), 'src/lib') } },
  ssr: { noExternal: true, external: ['playwright', 'playwright/test', 'playwright-core'] },
  build: {
    ssr: true,
    outDir,
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    rolldownOptions: {
      input: { main: entry },
      output: { entryFileNames: '[name].mjs', chunkFileNames: '[name]-[hash].mjs' },
      checks: { pluginTimings: false },
    },
  },
});
