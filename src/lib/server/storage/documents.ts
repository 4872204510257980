import { z } from 'zod';
import {
  caseId,
  caseSchema,
  goalSchema,
  importId,
  instant,
  listId,
  listRecordSchema,
  procedureSchema,
  profileSchema,
  referenceId,
  referenceSetSchema,
  reflectionSchema,
  storedResultSchema,
} from '../../model';
import { ours } from '../../model/written';

/** Records with ids made here. `next` only rises, so that the id of an erased record is never reused. */
const numbered = <Schema extends z.ZodType>(record: Schema) =>
  z.strictObject({ next: z.number().int().positive(), records: z.array(record) });

const importRecordSchema = z.strictObject({
  id: importId,
  fileName: ours(z.string(), 'a file name that looks like a person is left out where it is sent'),
  at: instant,
  textHash: ours(z.string(), 'a hash'),
  added: z.array(caseId),
  replaced: z.array(caseId),
  listsAdded: z.array(listId),
  referencesAdded: z.array(referenceId),
  undone: z.boolean(),
});

const heldImportSchema = z.strictObject({
  id: importId,
  heldAt: instant,
  fileName: ours(z.string(), 'a file name that looks like a person is left out where it is sent'),
  text: ours(z.string(), 'a file before it is read: columns that point to a person are asked about there'),
  choices: z.record(ours(z.string(), 'names of questions'), ours(z.string(), 'asked about when it is sent')),
});

/** The small documents a record is made of, by kind. A kind with a plural of documents has names `<kind>/<n or id>`. */
export const documentSchemas = {
  profile: z.strictObject({ profile: profileSchema }),
  procedures: z.strictObject({ records: z.array(procedureSchema) }),
  lists: numbered(listRecordSchema),
  goals: numbered(goalSchema),
  results: numbered(storedResultSchema),
  drafts: z.strictObject({
    values: z.record(ours(z.string(), 'names of forms'), ours(z.string(), 'not stored yet: asked about when it is')),
  }),
  /** What belongs to no single record: ids given to documents that can be removed, the count of erased cases. */
  ledger: z.strictObject({
    next: z.strictObject({ import: z.number().int().positive(), reference: z.number().int().positive() }),
    erasedCases: z.number().int().nonnegative(),
    /** What came with an invented surgeon and has no mark of its own. */
    invented: z
      .strictObject({
        listIds: z.array(listId),
        procedureIds: z.array(ours(z.string(), 'ids')),
        profileBefore: profileSchema.nullable(),
      })
      .nullable(),
  }),
  cases: numbered(caseSchema),
  reflections: numbered(reflectionSchema),
  reference: z.strictObject({ record: referenceSetSchema }),
  imports: z.discriminatedUnion('state', [
    z.strictObject({ state: z.literal('held'), held: heldImportSchema }),
    /** After confirming, the file's text is gone; what undo needs stays. */
    z.strictObject({ state: z.literal('recorded'), record: importRecordSchema, before: z.array(caseSchema) }),
  ]),
};

export type DocumentKind = keyof typeof documentSchemas;
type Shape = { [Kind in DocumentKind]: z.infer<(typeof documentSchemas)[Kind]> };

/** The name of a document is also its path, less the ending, where it lies on a disk. */
export type Documents = Pick<Shape, 'profile' | 'procedures' | 'lists' | 'goals' | 'results' | 'drafts' | 'ledger'> & {
  [shard: `cases/${number}`]: Shape['cases'];
  [shard: `reflections/${number}`]: Shape['reflections'];
  [set: `reference/${string}`]: Shape['reference'];
  [one: `imports/${string}`]: Shape['imports'];
};
export type DocumentName = keyof Documents & string;
export type Ledger = Shape['ledger'];

export const emptyLedger = {
  next: { import: 1, reference: 1 },
  erasedCases: 0,
  invented: null,
} satisfies Ledger;

const singles = ['profile', 'procedures', 'lists', 'goals', 'results', 'drafts', 'ledger'];
const plurals =
  /^(cases|reflections)\/[1-9]\d{0,5}$|^reference\/reference-[1-9]\d{0,8}$|^imports\/import-[1-9]\d{0,8}$/;

/** Is this the name of a document of ours? Anything else in a folder is left alone. */
export const isDocumentName = (name: string): name is DocumentName => singles.includes(name) || plurals.test(name);

export const kindOf = (name: DocumentName): DocumentKind => name.split('/')[0] as DocumentKind;
