import { z } from 'zod';
import type { ListRecord } from '../model';
import type { Work } from '../turns';
import { BACKUP_FORMAT, contentSum } from './backup';
import { inTurns, othersMeanwhile } from './in-turns';
import { JsonParts, NotParts, valueIn, type JsonPart } from './json-parts';
import type { DocumentKind } from './storage/documents';
import { rowKinds } from './storage/everything-schema';
import { migrations, schemaVersion } from './storage/migrations';
import { migrate } from './storage/migrations/migrate';
import type { Everything } from './storage/port';
import { withListsOf } from './storage/verbs/damage';
import { NotWhole, wholeRecord } from './storage/whole-record';

const FORMATS: readonly unknown[] = ['next-twenty/everything/1', BACKUP_FORMAT];

/** What a file holds, not yet checked, with the sum over it. */
type Raw = { fields: Map<string, unknown>; sum: string };

/** Says what is wrong with a backup, as a sentence. */
class Refused extends Error {}

/**
 * A full backup from its bytes, of this format or an earlier one and in any layout, read as it arrives; or what is wrong
 * with it and where. `missing`: what could not be read when it was written. Nothing of a file is taken that is cut off, altered, or wrong in any record.
 */
export async function readBackup(
  bytes: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): Promise<{ everything: Everything; missing: string[] } | { problem: string }> {
  try {
    const raw = await partsOf(bytes);
    refuseOthers(raw);
    const today = await inTurns(inShapeOfToday(raw.fields));
    const missing = z.array(z.string()).catch([]).parse(raw.fields.get('missing'));
    const partial = missing.length > 0;
    return { everything: await inTurns(wholeRecord(partial ? withLists(today) : today, partial)), missing };
  } catch (why) {
    if (why instanceof Refused) return { problem: why.message };
    if (why instanceof NotWhole)
      return { problem: `The backup is damaged at ${why.where || 'its start'}: ${why.why}.` };
    if (why instanceof NotParts) return { problem: notParts(why) };
    throw why;
  }
}

const notParts = ({ field, message }: NotParts): string =>
  field
    ? `The backup is damaged at ${field}: ${message}.`
    : `This is not a backup, or it is damaged (${message}). Choose the file that "Everything as one file" gave.`;

async function partsOf(bytes: AsyncIterable<Uint8Array> | Iterable<Uint8Array>): Promise<Raw> {
  const parts = new JsonParts();
  const sum = contentSum();
  const fields = new Map<string, unknown>();
  for await (const chunk of bytes) {
    for (const part of parts.push(chunk)) {
      if (part.text && part.field !== 'sha256') sum.add(part.field, part.text);
      take(fields, part);
    }
    await othersMeanwhile.pause();
  }
  if (!parts.whole) throw new Refused(cutOff(fields));
  return { fields, sum: sum.hex() };
}

function take(fields: Map<string, unknown>, part: JsonPart): void {
  const twice = new NotParts(part.field, 'this field stands there twice');
  if (part.text === null || part.index === null) {
    if (fields.has(part.field)) throw twice;
    fields.set(part.field, part.text === null ? [] : valueIn(part));
  } else (fields.get(part.field) as unknown[]).push(valueIn(part));
}

/** Where a file ends that ends too early: the person may know then whether it is the disk or the copying. */
function cutOff(fields: Map<string, unknown>): string {
  const last = [...fields].at(-1);
  if (!last) return 'This file is not JSON, or it is incomplete. Choose the file that "Everything as one file" gave.';
  const [field, value] = last;
  const after = Array.isArray(value) ? `${value.length.toLocaleString('en-GB')} of its ${field}` : `its ${field}`;
  return `This file is incomplete: it ends after ${after}. Copy it again from where it was kept, or choose an earlier one.`;
}

/** @throws Refused for a file of another program, of a later version, or altered since it was written */
function refuseOthers({ fields, sum }: Raw): void {
  if (versionOf(fields) > schemaVersion)
    throw new Refused('This backup was written by a later version of this program. Start that version to restore it.');
  const format = fields.get('format');
  if (!FORMATS.includes(format))
    throw new Refused(
      `This is not a backup this version can read${format === undefined ? '' : ` (it says it is ${String(format).slice(0, 60)})`}.`,
    );
  if (format === BACKUP_FORMAT && fields.get('sha256') !== sum)
    throw new Refused(
      'This file was altered after it was written: its check sum does not fit what it holds. Choose another copy of it.',
    );
}

const versionOf = (fields: Map<string, unknown>): number =>
  z.number().int().positive().catch(1).parse(fields.get('schemaVersion'));

const onAList = z.array(z.looseObject({ listId: z.string().nullable() }));

/** A backup of a record whose lists could not be read: its cases stay together as they were. */
function withLists(today: object): object {
  const { lists, cases } = today as { lists?: unknown; cases?: unknown };
  const named = onAList.safeParse(cases);
  if (!Array.isArray(lists) || !named.success) return today;
  return { ...today, lists: withListsOf(lists as ListRecord[], named.data) };
}

const A_SLICE = 200;

/** What the folder holds as documents a backup holds as rows: the same migrations bring it to today's shape. */
function* inShapeOfToday(fields: Map<string, unknown>): Work<object> {
  const from = versionOf(fields);
  const brought = (kind: DocumentKind, document: Record<string, unknown>) =>
    migrate(document, kind, from, schemaVersion, migrations);
  const today = new Map(fields);
  for (const each of ['schemaVersion', 'sha256', 'missing']) today.delete(each);
  today.set('format', 'next-twenty/everything/1');
  if (from === schemaVersion) return Object.fromEntries(today);
  for (const kind of rowKinds) {
    const rows = today.get(kind);
    if (!Array.isArray(rows)) continue;
    const led: unknown[] = [];
    for (let at = 0; at < rows.length; at += A_SLICE) {
      const some = rows.slice(at, at + A_SLICE);
      if (kind === 'references') led.push(...some.map((record) => brought('reference', { record })['record']));
      else led.push(...(brought(kind, { records: some })['records'] as unknown[]));
      yield at / rows.length;
    }
    today.set(kind, led);
  }
  if (today.has('profile')) today.set('profile', brought('profile', { profile: today.get('profile') })['profile']);
  return Object.fromEntries(today);
}
