import { readFile } from 'node:fs/promises';
import { asRead } from './sealed';

/**
 * The text of a file of the record: a document, the contents, the journal, a backup. Everything of a record that is read
 * comes through here, and everything that is written goes through `replaceDurably`: there an encrypted record is made so.
 */
export const readText = async (path: string): Promise<string> => asRead(path, await readFile(path)).toString('utf8');
