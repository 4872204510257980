import adapter from '@sveltejs/adapter-node';
import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';

/** @type {import('@sveltejs/kit').Config} */
export default {
  preprocess: vitePreprocess(),
  compilerOptions: { runes: ({ filename }) => (filename.includes('node_modules') ? undefined : true) },
  kit: {
    adapter: adapter({ out: 'build' }),
    // src/run/serve.js and hooks.server.ts check the origin of every change, JSON included.
    csp: {
      mode: 'auto',
      directives: {
        'default-src': ['none'],
        'script-src': ['self'],
        'style-src': ['self'],
        // The one inline style on a page: Kit's own route announcer.
        'style-src-attr': ['unsafe-hashes', 'sha256-S8qMpvofolR8Mpjy4kQvEm7m1q8clzU4dfDH0AmvZjo='],
        'img-src': ['self', 'data:', 'blob:'],
        'media-src': ['self', 'blob:'],
        'connect-src': ['self'],
        'worker-src': ['self'],
        'font-src': ['self'],
        'manifest-src': ['self'],
        'form-action': ['self'],
        'base-uri': ['none'],
        'frame-ancestors': ['none'],
      },
    },
    serviceWorker: { register: true },
    typescript: {
      config: (config) => ({
        ...config,
        include: [
          ...config.include,
          '../tests/**/*.ts',
          '../demo-data/**/*.ts',
          '../src/run/**/*.js',
          '../src/run/**/*.ts',
        ],
      }),
    },
  },
};
