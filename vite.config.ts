import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  plugins: [sveltekit()],
  // Libraries go into the built server: it starts in two thirds of the time, as Node opens a dozen files in place of hundreds.
  ssr: { noExternal: true },
  build: { rolldownOptions: { checks: { pluginTimings: false } } },
  test: {
    // Pure tests share one thread's modules: a fifth of the time, and nothing in them keeps state.
    projects: [
      {
        extends: true,
        test: {
          name: 'pure',
          include: ['tests/unit/**/*.test.ts', 'tests/published/**/*.test.ts'],
          pool: 'threads',
          isolate: false,
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'storage',
          include: ['tests/storage/**/*.test.ts'],
          pool: 'forks',
          isolate: true,
          testTimeout: 30_000,
        },
      },
    ],
  },
});
