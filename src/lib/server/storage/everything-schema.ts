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
import { atOnce, type Work } from '../../turns';
import type { Everything } from './port';

/** The kinds of which a record has many, in the order in which they are written. */
export const rowSchemas = {
  procedures: procedureSchema,
  lists: listRecordSchema,
  cases: caseSchema,
  goals: goalSchema,
  results: storedResultSchema,
  reflections: reflectionSchema,
  references: referenceSetSchema,
} as const;
export type RowKind = keyof typeof rowSchemas;
export const rowKinds = Object.keys(rowSchemas) as RowKind[];

/** What a whole record holds, in memory and in a file. */
export const recordFields = {
  profile: profileSchema,
  procedures: z.array(procedureSchema),
  lists: z.array(listRecordSchema),
  cases: z.array(caseSchema),
  goals: z.array(goalSchema),
  results: z.array(storedResultSchema),
  reflections: z.array(reflectionSchema),
  references: z.array(referenceSetSchema),
};

type Rows = Pick<Everything, RowKind>;
type Refuse = (field: RowKind, index: number, message: string) => void;

const A_SLICE = 5000;

/**
 * What no single record shows: an id or a code that stands twice, a list or a goal that is not there.
 * @param partial it is known that a part is missing: what names that part is kept
 */
export function* crossChecked(rows: Rows, refuse: Refuse, partial = false): Work<void> {
  const ids = new Map<RowKind, Set<string>>();
  for (const kind of rowKinds) {
    const seen = new Set<string>();
    for (const [index, { id }] of rows[kind].entries()) {
      if (seen.has(id)) refuse(kind, index, `the id ${id} stands there twice`);
      seen.add(id);
      if (index % A_SLICE === A_SLICE - 1) yield 0;
    }
    ids.set(kind, seen);
  }
  const codes = new Set<string>();
  for (const [index, { code, listId }] of rows.cases.entries()) {
    if (codes.has(code)) refuse('cases', index, `the code ${code} stands there twice`);
    codes.add(code);
    if (!partial && listId !== null && !ids.get('lists')?.has(listId))
      refuse('cases', index, `there is no list ${listId}`);
    if (index % A_SLICE === A_SLICE - 1) yield 0.5;
  }
  for (const [index, { goalId }] of rows.results.entries())
    if (!partial && !ids.get('goals')?.has(goalId)) refuse('results', index, `there is no goal ${goalId}`);
}

/** One surgeon's whole record, as the store takes it in and gives it out. */
export const everythingSchema = z
  .strictObject({ format: z.literal('next-twenty/everything/1'), ...recordFields })
  .superRefine((everything, context) =>
    atOnce(
      crossChecked(everything, (field, index, message) =>
        context.addIssue({ code: 'custom', message, path: [field, index] }),
      ),
    ),
  ) satisfies z.ZodType<Everything>;
