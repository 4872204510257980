import { everythingSchema } from './storage/everything-schema';
import type { Everything } from './storage/port';

/** A full backup from its text, or what is wrong with it and where. */
export function readEverything(text: string): { everything: Everything } | { problem: string } {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return { problem: 'This file is no JSON, or it is cut off. Choose the file that "Everything as one file" gave.' };
  }
  const read = everythingSchema.safeParse(parsed);
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
