import { createHash } from 'node:crypto';
import { checkText, decoding } from '../intake/table/decode';
import { readAuditInSlices, textPointsToAPerson, type AuditReading } from '../intake';
import { importPlan } from '../rooms/bring-in/import-plan';
import { oddInImport } from '../rooms/cases/odd-times';
import type { SurgeonRecord, Problem } from '../model';
import { inTurns, othersMeanwhile } from './in-turns';
import { keptAnswers, recordKey } from './kept-answers';
import type { HeldImport, ImportRecord, Store } from './storage/port';

/** Longest text taken, in characters: about 400,000 stretches, forty years of one surgeon. */
export const TEXT_MOST = 20_000_000;

/** The same file is recognised by its text, whatever its name. */
export const textHash = (text: string): string => createHash('sha256').update(text).digest('hex');

/** A file's name is shown and kept with the import, unless it may name a person. */
export function safeName(name: string): string {
  const plain = name
    .replace(/^.*[\\/]/, '')
    .trim()
    .slice(0, 80);
  const stem = plain.replace(/\.[^.]*$/, '').replace(/[_.-]+/g, ' ');
  return plain === '' || textPointsToAPerson(stem) ? 'a file' : plain;
}

/** Text of what was sent: a file, rows read from a workbook in the browser, or pasted cells. */
export async function sentText(
  form: FormData,
): Promise<{ text: string; fileName: string } | { problem: string; field: string }> {
  const file = form.get('file');
  const rows = form.get('rows');
  const cells = form.get('cells');
  if (typeof rows === 'string' && rows.trim() !== '')
    return within(checkText(rows), safeName(String(form.get('rowsName') ?? '')), 'file');
  if (file instanceof File && file.size > 0)
    return within(await inTurns(decoding(new Uint8Array(await file.arrayBuffer()))), safeName(file.name), 'file');
  if (file instanceof File && file.name !== '')
    return { problem: `${safeName(file.name)} is empty. Choose a file with headings and rows.`, field: 'file' };
  if (typeof cells === 'string' && cells.trim() !== '') return within(checkText(cells), 'pasted cells', 'cells');
  return typeof cells === 'string'
    ? { problem: 'There are no cells here yet. Paste them with their headings.', field: 'cells' }
    : { problem: 'Choose a file first.', field: 'file' };
}

function within(
  decoded: { text: string } | { problem: string },
  fileName: string,
  field: string,
): { text: string; fileName: string } | { problem: string; field: string } {
  if ('problem' in decoded) return { problem: `${fileName}: ${decoded.problem}`, field };
  if (decoded.text.length > TEXT_MOST)
    return { problem: `${fileName}: This is more than 20 million characters. Bring it in in parts.`, field };
  return { text: decoded.text, fileName };
}

// A large file takes a second to read, and one import is read at every look at it; the latest reading is enough.
const readings = keptAnswers<AuditReading>(1);

const oddOnes = keptAnswers<Problem[]>(1);

const keyOf = ({ id, heldAt, choices }: HeldImport, record: SurgeonRecord, now: string): string =>
  JSON.stringify([id, heldAt, choices, now.slice(0, 10), recordKey(record)]);

/** How a held text reads against the record, with the answers given so far; other requests are answered meanwhile. */
export function readHeld(held: HeldImport, record: SurgeonRecord, now: string): Promise<AuditReading> {
  const { text, fileName, choices } = held;
  const today = now.slice(0, 10);
  const input = {
    today,
    text,
    fileName,
    procedures: record.procedures,
    existing: record.cases,
    choices,
    withRows: true,
  };
  return readings(keyOf(held, record, now), () => readAuditInSlices(input, othersMeanwhile));
}

/** What is asked about in what would be taken of it: times far from the surgeon's own, steps that overlap. */
export function oddInHeld(held: HeldImport, record: SurgeonRecord, now: string): Promise<Problem[]> {
  return oddOnes(keyOf(held, record, now), async () => {
    const reading = await readHeld(held, record, now);
    return inTurns(oddInImport(importPlan(reading, held.choices, record), reading, record));
  });
}

/** The import that took in the same text before and was not taken back; `null` where there is none. */
export async function sameTextBefore(store: Store, text: string): Promise<ImportRecord | null> {
  const hash = textHash(text);
  return (await store.imports()).findLast((one) => one.textHash === hash && !one.undone) ?? null;
}
