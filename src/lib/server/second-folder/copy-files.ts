import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { backupPieces } from '../backup';
import { readBackup } from '../backup-reading';
import { keptOf } from '../storage/disk/backup-times';
import { isLeftover, removeDurably, replaceDurably } from '../storage/disk/durable';
import type { DataKey } from '../storage/disk/sealed';
import type { Everything } from '../storage/port';
import { isTied, untied } from '../storage/without-cases';
import { ClosedCopy, isUnder, openedBytes, piecesUnder, type Lock, type Opener } from './encrypted-copy';

const copyName = /^next-twenty-copy-(\d{4}-\d\d-\d\d)\.(?:json|encrypted)$/;
const A_PIECE = 64 * 1024;

export const copyPath = (folder: string, day: string, lock: Lock | null): string =>
  join(folder, `next-twenty-copy-${day}.${lock ? 'encrypted' : 'json'}`);

/** Copies in a folder, plain or encrypted, oldest first. */
export async function copiesIn(folder: string): Promise<{ path: string; day: string }[]> {
  const found = (await readdir(folder)).flatMap((name) => {
    const day = copyName.exec(name)?.[1];
    return day === undefined ? [] : [{ path: join(folder, name), day }];
  });
  return found.sort((a, b) => (a.day < b.day ? -1 : 1));
}

/** Removes what need not be kept any longer, and what a program left unfinished that was ended while it copied. */
export async function thinCopies(folder: string, months: number): Promise<void> {
  for (const name of await readdir(folder))
    if (isLeftover(name) && name.startsWith('.next-twenty-copy-')) await removeDurably(join(folder, name));
  const copies = await copiesIn(folder);
  const kept = keptOf([...new Set(copies.map(({ day }) => Date.parse(day)))], Date.now(), months);
  for (const { path, day } of copies) if (!kept.has(Date.parse(day))) await removeDurably(path);
}

function* piecesOf(bytes: Buffer): Generator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += A_PIECE) yield bytes.subarray(at, at + A_PIECE);
}

/** The key that is open here. @throws ClosedCopy for a copy of another */
const openerWith =
  (data: DataKey | null): Opener =>
  ({ keyId }) => {
    if (data?.keyId !== keyId) throw new ClosedCopy('It opens with another passphrase.');
    return data;
  };

/** What a copy holds, in plain. @throws ClosedCopy */
async function plainOf(path: string, data: DataKey | null): Promise<Buffer> {
  const pieces: Uint8Array[] = [];
  for await (const piece of openedBytes(piecesOf(await readFile(path)), openerWith(data))) pieces.push(piece);
  return Buffer.concat(pieces);
}

/**
 * Brings every copy to the form that a new one would have: encrypted with the passphrase of today, or plain. The new file
 * stands before the old one goes.
 * @returns how many could not be brought to it
 */
export async function bringCopiesUnder(lock: Lock | null, data: DataKey | null, folder: string): Promise<number> {
  let left = 0;
  for (const { path, day } of await copiesIn(folder))
    try {
      if (await isUnder(lock, path)) continue;
      const goal = copyPath(folder, day, lock);
      const stands = goal !== path && (await copiesIn(folder)).some((each) => each.path === goal); // written meanwhile
      if (!stands) await replaceDurably(goal, piecesUnder(lock, piecesOf(await plainOf(path, data))));
      if (goal !== path) await removeDurably(path);
    } catch (why) {
      if (!(why instanceof ClosedCopy)) throw why;
      left += 1;
    }
  return left;
}

/** Takes cases out of every copy that holds anything of them. A copy that may hold them and does not open goes. */
export async function forgetInCopies(
  gone: ReadonlySet<string>,
  lock: Lock | null,
  data: DataKey | null,
  folder: string,
): Promise<void> {
  for (const { path } of gone.size > 0 ? await copiesIn(folder) : []) {
    const plain = await plainOf(path, data).catch((why: unknown) => {
      if (why instanceof ClosedCopy) return null;
      throw why;
    });
    if (plain && ![...gone].some((id) => plain.includes(`"${id}"`))) continue;
    const read = plain && (await readBackup(piecesOf(plain)));
    if (!read || 'problem' in read) await removeDurably(path);
    else await replaceDurably(path, piecesUnder(lock, backupPieces(without(read.everything, gone), read.missing)));
  }
}

const without = (everything: Everything, gone: ReadonlySet<string>): Everything => ({
  ...everything,
  cases: everything.cases.filter(({ id }) => !gone.has(id)),
  reflections: everything.reflections.map((each) => (isTied(each, gone) ? untied(each, gone) : each)),
});
