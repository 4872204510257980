import type { DocumentKind } from '../documents';
import type { Migration } from './migration';

/**
 * Brings a document from one version to another, a migration at a time.
 * @throws when a migration on the way is missing
 */
export function migrate(
  document: Record<string, unknown>,
  kind: DocumentKind,
  from: number,
  to: number,
  migrations: readonly Migration[],
): Record<string, unknown> {
  let current = document;
  for (let version = from + 1; version <= to; version += 1) {
    const migration = migrations.find((each) => each.to === version);
    if (!migration) throw new Error(`there is no way from version ${version - 1} to ${version}`);
    current = migration.documents[kind]?.(current) ?? current;
  }
  return current;
}
