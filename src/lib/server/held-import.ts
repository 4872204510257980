import { createHash } from 'node:crypto';
import { checkText, decoding } from '../intake/table/decode';
import { readAuditInSlices, textPointsToAPerson, type AuditReading, type RunningStep } from '../intake';
import { importPlan } from '../rooms/bring-in/import-plan';
import { oddInImport } from '../rooms/cases/odd-times';
import type { SurgeonRecord, Problem } from '../model';
import { Cancelled, type Slices } from '../turns';
import { inTurns, othersMeanwhile } from './in-turns';
import { keptAnswers, recordKey } from './kept-answers';
import { hashAsSent, rememberSurgeons, withoutPersons } from './held-people';
import { answersToBegin } from './remembered-files';
import type { HeldImport, ImportRecord, Store } from './storage/port';
import { HELD_FOR } from './storage/verbs/held-imports';

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

type Sent = { text: string; fileName: string };
type NotSent = { problem: string; field: string };

/** More files and sheets than a record is brought in from; each is looked at by itself. */
const PARTS_MOST = 24;

/**
 * The texts of what was sent, in order: files, sheets of workbooks read in the browser (`rows`, with the name of the file
 * and of the sheet), or pasted cells. Several are parts of one record; one that cannot be read is named, and none is held.
 */
export async function sentParts(form: FormData): Promise<{ parts: Sent[] } | NotSent> {
  const parts: (Sent | NotSent)[] = [];
  for (const file of form.getAll('file')) {
    if (!(file instanceof File) || file.name === '') continue;
    parts.push(
      file.size > 0
        ? within(await inTurns(decoding(new Uint8Array(await file.arrayBuffer()))), safeName(file.name), 'file')
        : { problem: `${safeName(file.name)} is empty. Choose a file with headings and rows.`, field: 'file' },
    );
  }
  const [names, sheets] = [form.getAll('rowsName').map(String), form.getAll('rowsSheet').map(String)];
  for (const [at, rows] of form.getAll('rows').entries())
    if (typeof rows === 'string' && rows.trim() !== '')
      parts.push(within(checkText(rows), sheetName(names[at] ?? '', sheets[at] ?? ''), 'file'));
  const cells = form.get('cells');
  if (parts.length === 0 && typeof cells === 'string')
    parts.push(
      cells.trim() === ''
        ? { problem: 'There are no cells here yet. Paste them with their headings.', field: 'cells' }
        : within(checkText(cells), 'pasted cells', 'cells'),
    );
  if (parts.length === 0) return { problem: 'Choose a file first.', field: 'file' };
  if (parts.length > PARTS_MOST)
    return {
      problem: `These are ${parts.length} files and sheets. Bring in at most ${PARTS_MOST} at a time.`,
      field: 'file',
    };
  const wrong = parts.find((part) => 'problem' in part);
  if (wrong && 'problem' in wrong) return wrong;
  return { parts: parts.filter((part) => 'text' in part) };
}

function sheetName(file: string, sheet: string): string {
  const name = safeName(file);
  return sheet === '' ? name : `${name} [${textPointsToAPerson(sheet) ? 'a sheet' : sheet.slice(0, 40)}]`;
}

/** Names of the answers of a held part that say which parts of the same record come after it, and how many there are. */
const [THEN, PART, PARTS] = ['then', 'part', 'parts'] as const;

/**
 * Holds the parts of one record, each without what looks like a person; they are looked at one after the other, each against
 * the record with those before it.
 *
 * @param ownCodes the surgeon said that the codes of the cases identify nobody
 */
export async function holdParts(
  store: Store,
  parts: readonly Sent[],
  now: string,
  ownCodes = false,
): Promise<HeldImport | null> {
  let first: HeldImport | null = null;
  const after: string[] = [];
  for (const [at, part] of [...parts.entries()].reverse()) {
    const ofParts: Record<string, string> =
      parts.length === 1 ? {} : { [THEN]: after.join(' '), [PART]: String(at + 1), [PARTS]: String(parts.length) };
    const { text, surgeons, choices: beside } = await withoutPersons(store, part.text, ownCodes, textHash);
    const choices = { ...(await answersToBegin(store, text)), ...ofParts, ...beside };
    first = await store.holdImport({ ...part, text, heldAt: now, choices });
    rememberSurgeons(first.id, surgeons);
    after.unshift(first.id);
  }
  return first;
}

/** Which part of how many this is, and those that come after it; `null` for a file alone. */
export async function partsAfter(
  store: Store,
  { choices }: HeldImport,
): Promise<{ part: number; of: number; next: HeldImport[] } | null> {
  if (choices[PARTS] === undefined) return null;
  const held = await Promise.all((choices[THEN] ?? '').split(' ').map((id) => (id ? store.heldImport(id) : null)));
  return { part: Number(choices[PART]), of: Number(choices[PARTS]), next: held.filter((one) => one !== null) };
}

/** Keeps the answers, and this part and those after it for another hour: a record is looked at part by part. */
export async function lookedAt(store: Store, held: HeldImport, now: string): Promise<void> {
  await store.updateHeldImport({ ...held, heldAt: now });
  for (const next of (await partsAfter(store, held))?.next ?? [])
    await store.updateHeldImport({ ...next, heldAt: now });
}

function within(decoded: { text: string } | { problem: string }, fileName: string, field: string): Sent | NotSent {
  if ('problem' in decoded) return { problem: `${fileName}: ${decoded.problem}`, field };
  if (decoded.text.length > TEXT_MOST)
    return { problem: `${fileName}: This is more than 20 million characters. Bring it in in parts.`, field };
  return { text: decoded.text, fileName };
}

/** When a file that is not looked at again goes by itself. */
export const heldUntil = ({ heldAt }: HeldImport): string => new Date(Date.parse(heldAt) + HELD_FOR).toISOString();

// A large file takes a second to read, and one import is read at every look at it; the latest reading is enough.
const readings = keptAnswers<AuditReading>(1);

const oddOnes = keptAnswers<Problem[]>(1);

const keyOf = ({ id, heldAt, choices }: HeldImport, record: SurgeonRecord, now: string): string =>
  JSON.stringify([id, heldAt, choices, now.slice(0, 10), recordKey(record)]);

/** Goals that cannot be read keep no file from being read. */
function runningSteps(record: SurgeonRecord): RunningStep[] {
  try {
    return record.goals.filter(({ state }) => state === 'running');
  } catch {
    return [];
  }
}

/**
 * How a held text reads against the record, with the answers given so far; other requests are answered meanwhile.
 *
 * @param watched progress, and whether it is still wanted: a reading that others wait for too goes on for them
 */
export async function readHeld(
  held: HeldImport,
  record: SurgeonRecord,
  now: string,
  watched: Pick<Slices, 'progress' | 'cancelled'> = {},
): Promise<AuditReading> {
  const { text, fileName, choices } = held;
  const today = now.slice(0, 10);
  const input = {
    today,
    text,
    fileName,
    procedures: record.procedures,
    existing: record.cases,
    choices,
    running: runningSteps(record),
    withRows: true,
  };
  try {
    return await readings(keyOf(held, record, now), () => readAuditInSlices(input, { ...othersMeanwhile, ...watched }));
  } catch (why) {
    // Somebody else no longer wanted it.
    if (why instanceof Cancelled && !watched.cancelled?.()) return readHeld(held, record, now, watched);
    throw why;
  }
}

/** What is asked about in what would be taken of it: times far from the surgeon's own, steps that overlap. */
export function oddInHeld(held: HeldImport, record: SurgeonRecord, now: string): Promise<Problem[]> {
  return oddOnes(keyOf(held, record, now), async () => {
    const reading = await readHeld(held, record, now);
    return inTurns(oddInImport(importPlan(reading, held.choices, record), reading, record));
  });
}

/** The text by which a file is known again: as it was sent. */
export const sentHash = (held: HeldImport): string => hashAsSent(held) ?? textHash(held.text);

/** The import that took in the same text before and was not taken back; `null` where there is none. */
export async function sameTextBefore(store: Store, held: HeldImport): Promise<ImportRecord | null> {
  const hash = sentHash(held);
  return (await store.imports()).findLast((one) => one.textHash === hash && !one.undone) ?? null;
}
