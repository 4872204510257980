import { existsSync } from 'node:fs';
import { readFile as readBytes } from 'node:fs/promises';
import { isAbsolute, resolve } from 'node:path';
import { readAudit, type AuditInput, type AuditReading } from '../lib/intake';
import type { Problem } from '../lib/model';
import type { Options } from './options';

/** `userFolder`: where the person stood; `projectFolder`: the current folder, looked in second. */
export type Places = { userFolder: string; projectFolder: string };

type Named = Problem & { problem: true };

const named = (column: string | null, value: string | null, why: string): Named => ({
  row: null,
  column,
  value,
  why,
  weight: 'refused',
  problem: true,
});

export async function bytesOf(file: string, places: Places): Promise<Uint8Array | (Problem & { problem: true })> {
  const fromUser = resolve(places.userFolder, file);
  const path = isAbsolute(file) || existsSync(fromUser) ? fromUser : resolve(places.projectFolder, file);
  try {
    return await readBytes(path);
  } catch {
    return named(null, file, 'There is no such file, or it cannot be read. Check its name and folder.');
  }
}

/**
 * Reads twice where surgeons are named: the first reading tells which names the file holds, and a name of the command
 * line that is not among them would otherwise leave everything out without a word.
 */
export function readFile(input: AuditInput, options: Options): AuditReading | Named {
  const choices: Record<string, string> = { ...options.answers };
  if (options.procedure !== null) {
    const known = input.procedures.find(({ id }) => id === options.procedure?.toLowerCase());
    if (!known)
      return named(
        '--procedure',
        options.procedure,
        `There is no such procedure. Known: ${input.procedures.map(({ id }) => id).join(', ')}.`,
      );
    choices['procedure'] = known.id;
  }
  const first = readAudit({ ...input, choices });
  const names = first.questions.flatMap(({ id }) => (id.startsWith('surgeon:') ? [id.slice('surgeon:'.length)] : []));
  const find = (name: string) => names.find((one) => one.toLowerCase() === name.toLowerCase());
  // "S2,S3" is two names, unless somebody is called so.
  const named_ = options.references.flatMap((name) => (find(name) ? [name] : name.split(',').map((one) => one.trim())));
  const asked = [...(options.me === null ? [] : [options.me]), ...named_];
  if (names.length === 0 || asked.length === 0) return first;
  for (const name of asked)
    if (find(name) === undefined)
      return named('surgeon', name, `No surgeon in this file has that name; there are ${names.join(', ')}.`);
  const references = named_.map(find);
  const others = names.filter((name) => !references.includes(name));
  // With one name left beside the reference, it is plain who the surgeon is.
  const me = options.me !== null ? find(options.me) : others.length === 1 ? others[0] : undefined;
  if (me === undefined) return named('surgeon', null, `Say with --me which of these you are: ${others.join(', ')}.`);
  for (const name of names)
    choices[`surgeon:${name}`] = name === me ? 'me' : references.includes(name) ? 'reference' : 'leave';
  // Given on the command line, a reference set is the caller's word that these surgeons agreed.
  choices['agreed'] = 'yes';
  return readAudit({ ...input, choices });
}
