import { z } from 'zod';
import {
  caseSchema,
  goalSchema,
  listRecordSchema,
  procedureSchema,
  profileSchema,
  referenceSetSchema,
  reflectionSchema,
  storedResultSchema,
} from '../../model';
import type { Everything } from './port';

/** One surgeon's whole record in one JSON, as it goes out and comes in again. */
export const everythingSchema = z
  .strictObject({
    format: z.literal('next-twenty/everything/1'),
    profile: profileSchema,
    procedures: z.array(procedureSchema),
    lists: z.array(listRecordSchema),
    cases: z.array(caseSchema),
    goals: z.array(goalSchema),
    results: z.array(storedResultSchema),
    reflections: z.array(reflectionSchema),
    references: z.array(referenceSetSchema),
  })
  .superRefine((everything, context) => {
    const refuse = (field: string, index: number, message: string) =>
      context.addIssue({ code: 'custom', message, path: [field, index] });
    const once = (field: 'procedures' | 'lists' | 'cases' | 'goals' | 'results' | 'reflections' | 'references') => {
      const seen = new Set<string>();
      for (const [index, { id }] of everything[field].entries()) {
        if (seen.has(id)) refuse(field, index, `the id ${id} stands there twice`);
        seen.add(id);
      }
      return seen;
    };
    const lists = once('lists');
    const goals = once('goals');
    for (const field of ['procedures', 'cases', 'results', 'reflections', 'references'] as const) once(field);
    const codes = new Set<string>();
    for (const [index, { code, listId }] of everything.cases.entries()) {
      if (codes.has(code)) refuse('cases', index, `the code ${code} stands there twice`);
      codes.add(code);
      if (listId !== null && !lists.has(listId)) refuse('cases', index, `there is no list ${listId}`);
    }
    for (const [index, { goalId }] of everything.results.entries())
      if (!goals.has(goalId)) refuse('results', index, `there is no goal ${goalId}`);
  }) satisfies z.ZodType<Everything>;
