import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

/**
 * Who holds a data folder. Plain JavaScript with Node's own modules only: `npm start` asks before anything is installed.
 * @typedef {{ pid: number, host: string, started: string | null, token: string, since: string }} Owner
 */

export const lockName = 'owner.lock';

/**
 * When a process started, in the kernel's own count; null where the platform does not say. It tells apart a number that
 * was reused for another process after a crash.
 * @param {number} pid
 * @returns {string | null}
 */
export function processStart(pid) {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name in brackets may hold spaces; field 22 is the twentieth after it.
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? null;
  } catch {
    return null;
  }
}

/**
 * @param {string} path of a lock file
 * @returns {Owner | null} null when there is none
 * @throws when what is there is not a lock of ours
 */
export function readOwner(path) {
  let text;
  try {
    text = readFileSync(path, 'utf8');
  } catch (why) {
    if (/** @type {NodeJS.ErrnoException} */ (why).code === 'ENOENT') return null;
    throw why;
  }
  const owner = JSON.parse(text);
  if (typeof owner?.pid !== 'number' || typeof owner.host !== 'string' || typeof owner.token !== 'string')
    throw new Error('not a lock of this program');
  return owner;
}

/**
 * Does the process that made this lock still run? One on another machine is taken to: nobody here can know.
 * @param {Owner} owner
 */
export function isAlive(owner) {
  if (owner.host !== hostname()) return true;
  try {
    process.kill(owner.pid, 0);
  } catch (why) {
    // EPERM: it runs, as somebody else.
    return /** @type {NodeJS.ErrnoException} */ (why).code === 'EPERM';
  }
  const started = processStart(owner.pid);
  return started === null || owner.started === null || started === owner.started;
}

/**
 * @param {string} folder
 * @param {Owner} owner
 */
export const heldBy = (folder, owner) =>
  `The data folder ${folder} is in use by process ${owner.pid} on ${owner.host}, since ${owner.since}. ` +
  `Stop that one first, or choose another folder with NEXT_TWENTY_DATA.` +
  // Whether a process of another machine still runs cannot be known here, nor, where the system tells no start time,
  // whether a number was given again to another program after a crash. A person can know.
  (owner.host !== hostname()
    ? ` If it certainly no longer runs, delete ${join(folder, lockName)}.`
    : owner.started === null
      ? ` If process ${owner.pid} is another program (after a crash its number may be given again), delete ${join(folder, lockName)} and start again.`
      : '');

/**
 * Asked by `npm start` before it builds: a running server would lose the files it serves.
 * @param {string} folder
 * @returns {Owner | null} the living owner of the folder
 */
export function livingOwner(folder) {
  try {
    const owner = readOwner(join(folder, lockName));
    return owner && isAlive(owner) ? owner : null;
  } catch {
    return null; // the server itself says what is wrong with it
  }
}
