import { z } from 'zod';
import { documentSchemas, type DocumentKind } from '../documents';
import { frozen } from '../frozen';
import { noteReadable } from '../readable';
import { migrate } from '../migrations/migrate';
import type { Migration } from '../migrations/migration';

export type Versions = { schemaVersion: number; migrations: readonly Migration[] };

/** Written by a later version of this program: not for this one to judge or to touch. */
export class NewerVersion extends Error {
  constructor(readonly version: number) {
    super(`version ${version}`);
  }
}

const envelope = z.looseObject({ schemaVersion: z.number().int().nonnegative() });

export const toText = (document: object, versions: Versions) =>
  JSON.stringify({ schemaVersion: versions.schemaVersion, ...document });

/** @throws NewerVersion, or an error whose message says what is wrong with the text */
export function fromText(text: string, kind: DocumentKind, versions: Versions): object {
  const raw = envelope.safeParse(JSON.parse(text.replace(/^\uFEFF/, '')));
  if (!raw.success) throw new Error('it holds no version number');
  const { schemaVersion: version, ...rest } = raw.data;
  if (version > versions.schemaVersion) throw new NewerVersion(version);
  const current = migrate(rest, kind, version, versions.schemaVersion, versions.migrations);
  const parsed = documentSchemas[kind].safeParse(current);
  if (parsed.success) {
    noteReadable(frozen(parsed.data));
    return parsed.data;
  }
  const [issue] = parsed.error.issues;
  throw new Error(`${issue?.path.join('.') || 'the whole of it'}: ${issue?.message}`);
}
