import { z } from 'zod';

/** A short slug: step ids, fact ids, kept-part ids, checkpoint ids. Lower case, digits, hyphens. */
export const slug = z.string().regex(/^[a-z0-9][a-z0-9-]{0,59}$/, 'lower-case letters, digits and hyphens only');

/** An id made by the store (`case-17`, `goal-2`). Never made from anything a person typed. */
export const recordId = z.string().regex(/^[a-z]+-[0-9]+$/, 'not a record id');

/** A moment, ISO 8601 with zone, passed in from the edge: the pure folders have no clock. */
export const instant = z.iso.datetime({ offset: true });

export const isoDate = z.iso.date();
export const isoMonth = z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/, 'a month as YYYY-MM');
