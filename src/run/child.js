import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { projectFolder } from './stamps.js';

/**
 * Runs a Node program in the project folder.
 * @param {readonly string[]} args the program and its arguments
 * @param {{ env?: Record<string, string>, quiet?: boolean }} [options] quiet: what it prints is kept and returned;
 *   otherwise it goes to stderr, because stdout may belong to somebody's JSON
 * @returns {Promise<{ code: number, output: string }>}
 */
export function runNode(args, { env = {}, quiet = false } = {}) {
  return runProgram(process.execPath, args, { env, quiet });
}

/**
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ env?: Record<string, string>, quiet?: boolean }} [options]
 * @returns {Promise<{ code: number, output: string }>}
 */
export function runProgram(program, args, { env = {}, quiet = false } = {}) {
  return new Promise((resolve) => {
    const child = spawn(program, args, {
      cwd: projectFolder,
      env: { ...process.env, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let output = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (chunk) => {
        if (quiet) output += chunk;
        else process.stderr.write(chunk);
      });
    child.on('error', (why) => resolve({ code: 127, output: `${output}${why.message}\n` }));
    child.on('close', (code, signal) =>
      resolve({ code: code ?? 1, output: signal ? `${output}ended by ${signal}\n` : output }),
    );
  });
}

/**
 * The program a package brings, without npx: no shell, no search, the same on every system.
 * @param {string} path inside node_modules
 */
export const bin = (path) => join(projectFolder, 'node_modules', path);
