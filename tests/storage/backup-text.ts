import { backupPieces } from '../../src/lib/server/backup';
import { readBackup } from '../../src/lib/server/backup-reading';
import { schemaVersion } from '../../src/lib/server/storage/migrations';
import type { Everything } from '../../src/lib/server/storage';

/** The text of a full backup as this version writes it. */
export const backupText = (everything: Everything): string => [...backupPieces(everything)].join('');

/** As the version before this one wrote it: one JSON with a blank a level, no check sum, the number at its end. */
export const textBefore = (everything: object): string =>
  `${JSON.stringify({ schemaVersion, ...everything }, null, 1)}\n`;

/** Reads a text as it would arrive, in pieces of so many bytes. */
export const readText = (text: string | Uint8Array, piece = 1024) =>
  readBackup(
    (function* () {
      const bytes = typeof text === 'string' ? new TextEncoder().encode(text) : text;
      for (let at = 0; at < bytes.length; at += piece) yield bytes.subarray(at, at + piece);
    })(),
  );
