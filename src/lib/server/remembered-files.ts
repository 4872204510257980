import { createHash } from 'node:crypto';
import { z } from 'zod';
import { readAudit } from '../intake';
import type { Procedure } from '../model';
import { SHAPE, withRemembered } from '../rooms/bring-in/remembered-answers';
import { proceduresOf } from './procedures';
import type { Store } from './storage/port';

/** Enough of a text to hold its headings and some rows under them. */
const BEGINNING = 40_000;
const LINES = 60;

const answersSchema = z.record(z.string().max(260), z.string().max(60));
const draftKey = (shape: string) => `file-shape:${shape}`;

/**
 * The shape of a file: its headings, in any order, as a hash, so that none of their words is kept by it. `null` where there
 * are none to know it by.
 */
function shapeOf(text: string, procedures: readonly Procedure[]): string | null {
  const beginning = text
    .slice(0, BEGINNING)
    .split(/\r\n|\n|\r/)
    .slice(0, LINES)
    .join('\n');
  const { mapping, layout } = readAudit({ text: beginning, fileName: '', procedures });
  const keys = mapping.flatMap(({ kind, key }) => (kind === 'column' ? [key] : [])).sort();
  if (keys.length < 2 || layout === 'chapters') return null;
  return createHash('sha256').update(JSON.stringify(keys)).digest('hex');
}

/** How the last file of this shape was read; empty where none was taken, or its answers were forgotten. */
async function answersOfShape(store: Store, shape: string): Promise<Record<string, string>> {
  try {
    const read = answersSchema.safeParse(JSON.parse((await store.draft(draftKey(shape))) ?? '{}'));
    return read.success ? read.data : {};
  } catch {
    return {};
  }
}

/** The answers a file begins with: its shape, and those of the last file of that shape, marked as such. */
export async function answersToBegin(store: Store, text: string): Promise<Record<string, string>> {
  const shape = shapeOf(text, await proceduresOf(store));
  if (shape === null) return {};
  const last = await answersOfShape(store, shape);
  return Object.keys(last).length > 0 ? withRemembered({ [SHAPE]: shape }, last) : { [SHAPE]: shape };
}

export async function rememberShape(store: Store, shape: string, answers: Record<string, string>): Promise<void> {
  if (Object.keys(answers).length > 0) await store.saveDraft(draftKey(shape), JSON.stringify(answers));
}

/** All that is remembered of a shape, or one answer of it. */
export async function forgetShape(store: Store, shape: string, part = ''): Promise<void> {
  const { [part]: _, ...left } = part === '' ? {} : await answersOfShape(store, shape);
  if (Object.keys(left).length > 0) await rememberShape(store, shape, left);
  else await store.dropDraft(draftKey(shape));
}
