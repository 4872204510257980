import { z } from 'zod';
import type { DocumentKind } from './storage/documents';
import { everythingSchema } from './storage/everything-schema';
import { migrations, schemaVersion } from './storage/migrations';
import { migrate } from './storage/migrations/migrate';
import type { Everything } from './storage/port';

/** The full backup as it is written: the record, and the shape it is in. A file without a number is of the first shape. */
export const backupSchema = everythingSchema.safeExtend({ schemaVersion: z.number().int().positive() });

/** The text of a full backup. */
export const everythingText = (everything: Everything): string =>
  `${JSON.stringify({ ...everything, schemaVersion } satisfies z.infer<typeof backupSchema>, null, 1)}\n`;

/** A full backup from its text, or what is wrong with it and where. */
export function readEverything(text: string): { everything: Everything } | { problem: string } {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return {
      problem: 'This file is not JSON, or it is incomplete. Choose the file that "Everything as one file" gave.',
    };
  }
  const version = versionOf(parsed);
  if (version > schemaVersion)
    return { problem: 'This backup was written by a later version of this program. Start that version to restore it.' };
  const read = everythingSchema.safeParse(inShapeOfToday(parsed, version));
  if (read.success) return { everything: read.data };
  const format = typeof parsed === 'object' && parsed !== null && 'format' in parsed ? String(parsed.format) : null;
  if (format !== 'next-twenty/everything/1')
    return {
      problem: `This is not a backup this version can read${format ? ` (it says it is ${format.slice(0, 60)})` : ''}.`,
    };
  const first = read.error.issues[0];
  return {
    problem: `The backup is damaged at ${first?.path.join('.') || 'its start'}: ${first?.message ?? 'not readable'}.`,
  };
}

function versionOf(parsed: unknown): number {
  const given = z.looseObject({ schemaVersion: z.number().int().positive() }).safeParse(parsed);
  return given.success ? given.data.schemaVersion : 1;
}

const KINDS = ['procedures', 'lists', 'cases', 'goals', 'results', 'reflections'] as const satisfies DocumentKind[];

/** What the folder holds as documents a backup holds as rows: the same migrations bring it to today's shape. */
function inShapeOfToday(parsed: unknown, from: number): unknown {
  const backup = z.looseObject({}).safeParse(parsed);
  if (!backup.success) return parsed;
  const { schemaVersion: _version, ...today } = backup.data;
  const brought = (kind: DocumentKind, document: Record<string, unknown>) =>
    migrate(document, kind, from, schemaVersion, migrations);
  for (const kind of KINDS)
    if (Array.isArray(today[kind])) today[kind] = brought(kind, { records: today[kind] })['records'];
  if (Array.isArray(today['references']))
    today['references'] = today['references'].map((record: unknown) => brought('reference', { record })['record']);
  if (today['profile']) today['profile'] = brought('profile', { profile: today['profile'] })['profile'];
  return today;
}
