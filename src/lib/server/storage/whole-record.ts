import { z } from 'zod';
import { profileSchema } from '../../model';
import type { Work } from '../../turns';
import { crossChecked, rowKinds, rowSchemas, type RowKind } from './everything-schema';
import { frozen } from './frozen';
import type { Everything } from './port';
import { noteReadable } from './readable';

/** Why this is not a whole record, and where. */
export class NotWhole extends Error {
  constructor(
    readonly where: string,
    readonly why: string,
  ) {
    super(`${where}: ${why}`);
  }
}

const outside = z.strictObject({
  format: z.literal('next-twenty/everything/1'),
  profile: z.unknown(),
  ...(Object.fromEntries(rowKinds.map((kind) => [kind, z.array(z.unknown())])) as Record<
    RowKind,
    z.ZodArray<z.ZodUnknown>
  >),
});

const known = new WeakSet<object>();

/** Some milliseconds of a case with a dozen stretches. */
const A_SLICE = 50;

function parsed<Schema extends z.ZodType>(schema: Schema, value: unknown, where: string): z.infer<Schema> {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  throw new NotWhole([where, ...(issue?.path ?? [])].filter(String).join('.'), issue?.message ?? 'not readable');
}

/**
 * What `everythingSchema` says, said a record at a time, so that a record of a working life keeps nobody waiting, and the
 * first thing wrong ends it.
 * @param partial it is known that a part is missing
 * @throws NotWhole
 */
export function* wholeRecord(given: object, partial = false): Work<Everything> {
  if (known.has(given)) return given as Everything;
  const { format, profile, ...rows } = parsed(outside, given, '');
  const checked = Object.fromEntries(rowKinds.map((kind) => [kind, [] as object[]])) as Record<RowKind, object[]>;
  for (const kind of rowKinds)
    for (const [index, row] of rows[kind].entries()) {
      const record = frozen(parsed(rowSchemas[kind], row, `${kind}.${index}`));
      noteReadable({ records: [record] }); // its document has the same schema
      checked[kind].push(record);
      if (index % A_SLICE === A_SLICE - 1) yield index / rows[kind].length;
    }
  const everything = {
    format,
    profile: frozen(parsed(profileSchema, profile, 'profile')),
    ...checked,
  } as unknown as Everything;
  const refuse = (kind: RowKind, index: number, message: string) => {
    throw new NotWhole(`${kind}.${index}`, message);
  };
  yield* crossChecked(everything, refuse, partial);
  known.add(Object.freeze(everything));
  return everything;
}
