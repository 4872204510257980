import { z } from 'zod';

/** A short slug: step ids, fact ids, protected-part ids, checkpoint ids. Lower case, digits, hyphens. */
export const slug = z.string().regex(/^[a-z0-9][a-z0-9-]{0,59}$/, 'lower-case letters, digits and hyphens only');

/**
 * An id made by the store (`case-17`, `goal-2`), never from anything a person typed. Its number counts from 1 and has at
 * most nine digits: it decides where a record lies, so it must stay a number that arithmetic keeps exact.
 */
const made = (kind: string) =>
  z.string().regex(new RegExp(`^${kind}-[1-9]\\d{0,8}$`), `not an id of this kind (${kind}-1, ${kind}-2, …)`);

export const caseId = made('case');
export const listId = made('list');
export const goalId = made('goal');
export const resultId = made('result');
export const reflectionId = made('reflection');
export const referenceId = made('reference');
export const importId = made('import');

/** A moment, ISO 8601 with zone, passed in from the edge: the pure folders have no clock. */
export const instant = z.iso.datetime({ offset: true });

/** Years a living surgeon can mean: a slip of the keyboard must not make a calendar of eight thousand years. */
const inThoseYears = (pattern: string) => new RegExp(`^(?=19|2[01])${pattern.replace(/^\^/, '')}`);

/** One pattern each, because a published JSON Schema shows patterns and no other condition. */
export const isoDate = z.string().regex(inThoseYears(z.regexes.date.source), 'a day as YYYY-MM-DD, from 1900 to 2199');
export const isoMonth = z
  .string()
  .regex(inThoseYears(String.raw`\d{4}-(0[1-9]|1[0-2])$`), 'a month as YYYY-MM, from 1900 to 2199');
