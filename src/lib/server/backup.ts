import { createHash } from 'node:crypto';
import { z } from 'zod';
import { atOnce } from '../turns';
import { crossChecked, recordFields, rowKinds } from './storage/everything-schema';
import { schemaVersion } from './storage/migrations';
import type { Everything } from './storage/port';

/** The file as it is written. Until this one there was `/1`: the same fields, without a check sum. */
export const BACKUP_FORMAT = 'next-twenty/everything/2';

/** The largest file that is taken in, in bytes: about 400,000 cases. What a change of the store can hold is not far beyond. */
export const BACKUP_MOST = 400_000_000;

/** The full backup as it is written: the record, the shape it is in, and a check sum over all of it. */
export const backupSchema = z
  .strictObject({
    format: z.literal(BACKUP_FORMAT),
    schemaVersion: z.number().int().positive(),
    missing: z
      .array(z.string())
      .optional()
      .describe('What could not be read when this was written, in words. Absent: nothing.'),
    ...recordFields,
    sha256: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .describe(
        'SHA-256, in hexadecimal, of the UTF-8 text made of every other field in order: for each element of a list, and for each field that is none, the name of the field, a tab, the JSON text as it stands in this file, a line break.',
      ),
  })
  .superRefine((backup, context) => {
    const refuse = (field: string, index: number, message: string) =>
      context.addIssue({ code: 'custom', message, path: [field, index] });
    atOnce(crossChecked(backup, refuse, backup.missing !== undefined));
  });

/** The check sum over the parts of a backup, the same for whoever writes it and whoever reads it. */
export function contentSum() {
  const hash = createHash('sha256');
  return {
    add: (field: string, text: string | Uint8Array) => void hash.update(`${field}\t`).update(text).update('\n'),
    hex: () => hash.digest('hex'),
  };
}

const A_PIECE = 64 * 1024;

/**
 * The text of a full backup, in pieces of about 64 kB: one ordinary JSON with a record a line. Nobody waits for more than
 * a piece, and a record of any size is never one text in memory.
 * @param missing what could not be read, in words
 */
export function* backupPieces(everything: Everything, missing: readonly string[] = []): Generator<string> {
  const sum = contentSum();
  let piece = '';
  const field = (name: string, value: unknown) => {
    const text = JSON.stringify(value);
    sum.add(name, text);
    return text;
  };
  piece += `{"format":${field('format', BACKUP_FORMAT)},\n"schemaVersion":${field('schemaVersion', schemaVersion)},\n`;
  const lacking = missing.map((what) => field('missing', what));
  if (lacking.length > 0) piece += `"missing":[${lacking.join(',')}],\n`;
  piece += `"profile":${field('profile', everything.profile)},\n`;
  for (const kind of rowKinds) {
    piece += `"${kind}":[`;
    for (const [index, row] of everything[kind].entries()) {
      piece += `${index === 0 ? '\n' : ',\n'}${field(kind, row)}`;
      if (piece.length < A_PIECE) continue;
      yield piece;
      piece = '';
    }
    piece += '],\n';
  }
  yield `${piece}"sha256":"${sum.hex()}"}\n`;
}
