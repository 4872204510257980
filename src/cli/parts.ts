import { existsSync } from 'node:fs';
import { readFile as readBytes } from 'node:fs/promises';
import { isAbsolute, resolve } from 'node:path';
import { buffer } from 'node:stream/consumers';
import type { PartInput } from '../lib/intake';
import { whole, type FileProblem } from './problem';
import { isWorkbook, sheetsOf } from './workbook';

/** `userFolder`: where the person stood; `projectFolder`: the current folder, looked in second. */
export type Places = { userFolder: string; projectFolder: string; stdin?: () => Promise<Uint8Array> };

/** A file, or a sheet of a workbook with its rows: its text or bytes. */
export type Part = {
  name: string;
  sheet: string | null;
  rows: number;
  written: Pick<PartInput['input'], 'text' | 'bytes'>;
};

export type Parts = { parts: Part[] } | { problem: FileProblem };

/**
 * A file as its parts: itself, or the sheets of a workbook. Where sheets are named, those; a name that no sheet has is
 * told with the names there are.
 */
export async function partsOf(file: string, wanted: readonly string[], places: Places): Promise<Parts> {
  const bytes = await bytesOf(file, places);
  if (bytes === null)
    return { problem: whole(null, file, 'There is no such file, or it cannot be read. Check its name and folder.') };
  if (!isWorkbook(bytes)) return { parts: [{ name: file, sheet: null, rows: 0, written: { bytes } }] };
  const read = await sheetsOf(bytes);
  if ('problem' in read) return { problem: whole(null, file, read.problem) };
  const plain = (name: string) => name.trim().toLowerCase();
  const names = read.sheets.map(({ name }) => name);
  for (const name of wanted)
    if (!names.some((one) => plain(one) === plain(name)))
      return { problem: whole('--sheet', name, `There is no such sheet. Sheets: ${names.join(', ') || 'none'}.`) };
  const taken =
    wanted.length === 0
      ? read.sheets
      : read.sheets.filter(({ name }) => wanted.some((one) => plain(one) === plain(name)));
  if (taken.length === 0) return { problem: whole(null, file, 'No sheet of this workbook holds anything.') };
  return {
    parts: taken.map(({ name, rows, text }) => ({ name: `${file} [${name}]`, sheet: name, rows, written: { text } })),
  };
}

/** `-` is standard input. `null`: there is no such file, or it cannot be read. */
export async function bytesOf(file: string, places: Places): Promise<Uint8Array | null> {
  if (file === '-') return places.stdin ? places.stdin() : buffer(process.stdin);
  const fromUser = resolve(places.userFolder, file);
  const path = isAbsolute(file) || existsSync(fromUser) ? fromUser : resolve(places.projectFolder, file);
  try {
    return await readBytes(path);
  } catch {
    return null;
  }
}
