import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const projectFolder = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/**
 * @param {string} path
 * @returns {string[]} the files in it, in an order that does not depend on the machine
 */
function filesIn(path) {
  if (!existsSync(path)) return [];
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path)
    .sort()
    .flatMap((name) => filesIn(join(path, name)));
}

/**
 * A hash of names and contents, not of times: a fresh checkout of the same sources is not stale.
 * @param {readonly string[]} paths files or folders, from the project folder; those that do not exist are passed over
 */
export function hashOf(paths) {
  const hash = createHash('sha256');
  for (const file of paths.flatMap((path) => filesIn(join(projectFolder, path)))) {
    const content = readFileSync(file);
    hash.update(`${file.slice(projectFolder.length)}\0${content.length}\0`).update(content);
  }
  return hash.digest('hex');
}

/**
 * Does work whose outcome lies in a folder only when what it was made from has changed. The stamp goes before the work
 * begins and is written last: interrupted work is done again.
 * @template T
 * @param {string} stampFile from the project folder
 * @param {string} stamp
 * @param {() => Promise<T>} work
 */
export async function unlessStamped(stampFile, stamp, work) {
  const path = join(projectFolder, stampFile);
  if (existsSync(path) && readFileSync(path, 'utf8') === stamp) return;
  rmSync(path, { force: true });
  await work();
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, stamp);
}
