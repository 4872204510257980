import { randomBytes } from 'node:crypto';
import { appendFile, readFile, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';

/**
 * An unexpected error as it is kept: what the program did, nothing of what the record holds. No message, since it may quote a
 * value; no address, since it may name a case; no path outside the program, since it may name a person.
 */
export type Fault = { at: string; id: string; where: string; what: string; frames: string[] };

/** Two files of at most this many bytes are kept. */
const MOST_BYTES = 256 * 1024;
const MOST_FRAMES = 12;

const registry = globalThis as typeof globalThis & { nextTwentyFaults?: string };
let writing: Promise<void> = Promise.resolve();

/** Where faults are noted from now on. On the process, because `vite dev` reads this module again at every edit. */
export const noteFaultsIn = (folder: string): void => {
  registry.nextTwentyFaults = folder;
};

export const newFaultId = (): string => randomBytes(4).toString('hex');

const plain = (text: unknown, otherwise: string): string =>
  typeof text === 'string' && /^[A-Za-z_]{1,40}$/.test(text) ? text : otherwise;

/** A line of a stack: what of the program was called, in which of its files. */
function frameOf(line: string): string | null {
  const parts =
    /^\s*at (?:(?:async )?([\w$.<>#[\] ]{1,80}) \()?(?:file:\/\/|https?:\/\/[^/]+)?(.*?):(\d+):(\d+)\)?$/.exec(line);
  if (!parts) return null;
  const [, called = '', file = '', row, column] = parts;
  const own = /(?:^|\/)((?:build|src|tests|node_modules|_app)\/[\w./@+[\]()-]+)$/.exec(file)?.[1];
  const shown = own ?? (/^node:[\w/]+$/.test(file) ? file : 'elsewhere');
  return `${called ? `${called} ` : ''}${shown}:${row}:${column}`;
}

export const framesOf = (stack: unknown): string[] =>
  typeof stack === 'string'
    ? stack
        .split('\n')
        .flatMap((line) => frameOf(line) ?? [])
        .slice(0, MOST_FRAMES)
    : [];

/** What is kept of an error. `where`: the route as it stands in the program, never the address. */
export function faultOf(why: unknown, where: string, at: string, id = newFaultId()): Fault {
  const { name, code, stack } = Object(why) as { name?: unknown; code?: unknown; stack?: unknown };
  const what = [plain(name, 'Error'), ...(plain(code, '') ? [plain(code, '')] : [])].join(' ');
  return { at, id, where, what, frames: framesOf(stack) };
}

/** Notes a fault. Whether that works is no concern of whoever is answered meanwhile. @returns its number */
export function noteFault(fault: Fault): string {
  const folder = registry.nextTwentyFaults;
  if (folder !== undefined) writing = writing.then(() => append(folder, fault)).catch(() => {});
  return fault.id;
}

/** Once all that was noted is in the file. */
export const faultsWritten = (): Promise<void> => writing;

const pathIn = (folder: string) => join(folder, 'faults.log');

async function append(folder: string, fault: Fault): Promise<void> {
  const path = pathIn(folder);
  const size = await stat(path).then(
    (about) => about.size,
    () => 0,
  );
  const line = `${JSON.stringify(fault)}\n`;
  if (size + line.length > MOST_BYTES) await rename(path, `${path}.1`);
  await appendFile(path, line, { mode: 0o600 });
}

/** The latest faults, newest first; a line that cannot be read is passed over. */
export async function latestFaults(most: number): Promise<Fault[]> {
  const folder = registry.nextTwentyFaults;
  if (folder === undefined) return [];
  const texts = await Promise.all(
    [`${pathIn(folder)}.1`, pathIn(folder)].map((path) => readFile(path, 'utf8').catch(() => '')),
  );
  const lines = texts.join('').split('\n').filter(Boolean).reverse();
  return lines.slice(0, most).flatMap((line) => {
    try {
      return [JSON.parse(line) as Fault];
    } catch {
      return [];
    }
  });
}

export async function dropFaults(): Promise<void> {
  await writing;
  const folder = registry.nextTwentyFaults;
  if (folder === undefined) return;
  for (const path of [pathIn(folder), `${pathIn(folder)}.1`]) await rm(path, { force: true });
}
