import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { projectFolder } from './stamps.js';

/**
 * Whatever this program started ends with it, even when only this program is told to stop.
 * @param {import('node:child_process').ChildProcess} child
 * @returns {() => void} to call when the child has ended
 */
function endTogether(child) {
  const stop = (/** @type {NodeJS.Signals} */ signal) => {
    child.kill(signal);
    process.exit(1);
  };
  process.once('SIGINT', stop).once('SIGTERM', stop);
  return () => process.off('SIGINT', stop).off('SIGTERM', stop);
}

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
      env: { ...process.env, ...(quiet ? { NO_COLOR: '1', FORCE_COLOR: '0' } : {}), ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const ended = endTogether(child);
    let output = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (chunk) => {
        if (quiet) output += chunk;
        else process.stderr.write(chunk);
      });
    child.on('error', (why) => {
      ended();
      resolve({ code: 127, output: `${output}${why.message}\n` });
    });
    child.on('close', (code, signal) => {
      ended();
      resolve({ code: code ?? 1, output: signal ? `${output}ended by ${signal}\n` : output });
    });
  });
}

/**
 * The program a package brings, without npx: no shell, no search, the same on every system.
 * @param {string} path inside node_modules
 */
export const bin = (path) => join(projectFolder, 'node_modules', path);
