import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bin, runNode } from './child.js';
import { reasonOf } from './reason.js';
import { installIfStale, tooOld } from './set-up.js';
import { hashOf, projectFolder, unlessStamped } from './stamps.js';

/**
 * `node src/run/tool.js assess FILE …`, `bench NAME …`, `doctor`, `gallery`, `demo`.
 * The entry exports `run(args, io)` and returns the exit code. Everything of set-up goes to stderr: stdout is the entry's own.
 */
const [tool = '', ...rest] = process.argv.slice(2);

const sources = [
  'src',
  'content',
  'demo-data',
  'tests/bench',
  'tests/made-up',
  'tests/browser',
  'package-lock.json',
  'tsconfig.json',
];

/** @returns {{ entry: string, args: string[] }} */
function chosen() {
  if (tool === 'assess') return { entry: 'src/cli/assess.ts', args: rest };
  if (tool === 'gallery') return { entry: 'tests/browser/gallery.ts', args: rest };
  if (tool === 'doctor') return { entry: 'src/run/doctor.ts', args: rest };
  if (tool === 'demo') return { entry: 'demo-data/make.ts', args: rest };
  if (tool === 'bench' && /^[a-z][a-z-]*$/.test(rest[0] ?? '')) {
    const entry = `tests/bench/${rest[0]}.ts`;
    if (existsSync(join(projectFolder, entry))) return { entry, args: rest.slice(1) };
  }
  throw new Error('Say which tool: assess FILE, bench NAME, doctor, gallery or demo.');
}

/**
 * @param {string} entry
 * @returns {Promise<string>} the bundle
 */
async function bundled(entry) {
  const out = `.tools/node/${entry.replaceAll(/[/.]/g, '-')}`;
  await unlessStamped(`${out}/.built-from`, hashOf(sources), async () => {
    const args = [bin('vite/bin/vite.js'), 'build', '--config', 'src/run/node.config.ts'];
    const env = { NEXT_TWENTY_ENTRY: entry, NEXT_TWENTY_OUT: join(projectFolder, out) };
    const { code, output } = await runNode(args, { quiet: true, env });
    if (code === 0) return;
    process.stderr.write(output);
    throw new Error(`${entry} could not be built; the reason is above.`);
  });
  return join(projectFolder, out, 'main.mjs');
}

try {
  const old = tooOld();
  if (old) throw new Error(old);
  const { entry, args } = chosen();
  await installIfStale();
  // The bundler reads a file that Kit writes; a fresh checkout has none before the first start.
  if (!existsSync(join(projectFolder, '.svelte-kit/tsconfig.json')))
    await runNode([bin('@sveltejs/kit/svelte-kit.js'), 'sync'], { quiet: true });
  const { run } = await import(pathToFileURL(await bundled(entry)).href);
  // npm runs scripts in the project folder; INIT_CWD is where the person stood.
  const userFolder = process.env.INIT_CWD ?? process.cwd();
  process.chdir(projectFolder);
  process.exitCode = await run(args, {
    projectFolder,
    userFolder,
    out: (/** @type {string} */ text) => void process.stdout.write(text),
    err: (/** @type {string} */ text) => void process.stderr.write(text),
  });
} catch (why) {
  console.error(reasonOf(why));
  process.exitCode = 1;
}
