import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { build } from 'vite';
import { afterAll, beforeAll } from 'vitest';

let folder = '';

/** Bundles child-program.ts once for a test file, so that a child starts as fast as plain Node does. */
export function bundleChildProgram(): void {
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'next-twenty-child-'));
    await build({
      configFile: false,
      logLevel: 'error',
      publicDir: false,
      ssr: { noExternal: true },
      build: {
        ssr: true,
        outDir: folder,
        target: 'node20',
        rolldownOptions: { input: 'tests/storage/child-program.ts', output: { entryFileNames: 'child.mjs' } },
      },
    });
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));
}

export type Child = { process: ChildProcess; lines: string[]; firstLine: Promise<string>; ended: Promise<void> };

export function startChild(...args: string[]): Child {
  const child = spawn(process.execPath, [join(folder, 'child.mjs'), ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
  const lines: string[] = [];
  const reader = createInterface(child.stdout);
  const firstLine = new Promise<string>((resolve) => reader.once('line', resolve));
  reader.on('line', (line) => lines.push(line));
  const ended = Promise.all([
    new Promise((resolve) => child.once('exit', resolve)),
    new Promise((resolve) => reader.once('close', resolve)),
  ]).then(() => {});
  return { process: child, lines, firstLine, ended };
}
