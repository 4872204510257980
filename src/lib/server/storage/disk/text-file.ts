import { readFile } from 'node:fs/promises';

/**
 * The text of a file of the record: a document, the contents, the journal, a backup. Everything of a record that is read
 * comes through here, and everything that is written goes through `replaceDurably`.
 */
export const readText = (path: string): Promise<string> => readFile(path, 'utf8');
