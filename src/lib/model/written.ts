import { z } from 'zod';

/**
 * How a text of the record comes to be there. `note` and `label` are typed by a person and are asked about where they look
 * like one (`label`: a short name, in which a day is expected); `code` has a question of its own; `ours` was made by this
 * program, for the reason given. Every text without a fixed pattern says which it is; a test walks the schemas for it.
 */
export type Written = { kind: 'note' | 'label'; most: number } | { kind: 'code' } | { kind: 'ours'; why: string };

/** Letters of a text as it is typed, where nothing shorter is said; what came in otherwise may be longer. */
const MOST = { note: 20_000, label: 240 } as const;

const written = z.registry<Written>();

function marked<Schema extends z.ZodType>(schema: Schema, as: Written): Schema {
  written.add(schema, as);
  return schema;
}

/** Sentences of the surgeon's own. */
export const note = <Schema extends z.ZodType>(schema: Schema, most: number = MOST.note): Schema =>
  marked(schema, { kind: 'note', most });
export const label = <Schema extends z.ZodType>(schema: Schema, most: number = MOST.label): Schema =>
  marked(schema, { kind: 'label', most });
export const code = <Schema extends z.ZodType>(schema: Schema): Schema => marked(schema, { kind: 'code' });
export const ours = <Schema extends z.ZodType>(schema: Schema, why: string): Schema =>
  marked(schema, { kind: 'ours', why });

const writtenAs = (schema: z.core.$ZodType): Written | undefined => written.get(schema);

type Def = { type: string } & Record<string, unknown>;
const defOf = (schema: z.core.$ZodType): Def => schema._zod.def as unknown as Def;

/** What lies inside a schema, with the part of a value that it describes. */
function inside(def: Def, value: unknown): [schema: z.core.$ZodType, value: unknown][] {
  const of = (key: string) => def[key] as z.core.$ZodType;
  const parts = (typeof value === 'object' && value !== null ? value : {}) as Record<string, unknown>;
  switch (def.type) {
    case 'optional':
    case 'nullable':
    case 'default':
    case 'readonly':
    case 'catch':
      return [[of('innerType'), value]];
    case 'array':
      return Array.isArray(value) ? value.map((each): [z.core.$ZodType, unknown] => [of('element'), each]) : [];
    case 'record':
      return Object.values(parts).map((each): [z.core.$ZodType, unknown] => [of('valueType'), each]);
    case 'object':
      return Object.entries(def['shape'] as Record<string, z.core.$ZodType>).map(([key, each]) => [each, parts[key]]);
    case 'union':
      return (def['options'] as z.core.$ZodType[]).flatMap((each): [z.core.$ZodType, unknown][] =>
        z.core.safeParse(each, value).success ? [[each, value]] : [],
      );
    default:
      return [];
  }
}

/** A text that a person typed; `most`: letters that a form may hold of it. */
export type WrittenText = { text: string; kind: 'note' | 'label'; most: number };

/** The texts in a value that a person typed; the value is of this schema. */
export function textsWritten(schema: z.core.$ZodType, value: unknown): WrittenText[] {
  if (value === null || value === undefined) return [];
  const mark = writtenAs(schema);
  if (mark)
    return typeof value === 'string' && (mark.kind === 'note' || mark.kind === 'label')
      ? [{ text: value, kind: mark.kind, most: mark.most }]
      : [];
  return inside(defOf(schema), value).flatMap(([each, part]) => textsWritten(each, part));
}

/** Where in a schema a text stands that is not marked, and that no pattern or list of words binds. */
export function unmarkedTexts(schema: z.core.$ZodType, path = ''): string[] {
  if (writtenAs(schema)) return [];
  const def = defOf(schema);
  const of = (key: string) => def[key] as z.core.$ZodType;
  switch (def.type) {
    case 'string': {
      const checks = (def['checks'] ?? []) as {
        _zod: { def: { check: string; format?: string; maximum?: number; length?: number } };
      }[];
      const bound =
        def['format'] !== undefined ||
        checks.some(
          ({ _zod: { def: each } }) => each.format !== undefined || each.check === 'string_format' || each.length === 1,
        );
      return bound ? [] : [path];
    }
    case 'optional':
    case 'nullable':
    case 'default':
    case 'readonly':
    case 'catch':
      return unmarkedTexts(of('innerType'), path);
    case 'array':
      return unmarkedTexts(of('element'), `${path}[]`);
    case 'record':
      return [...unmarkedTexts(of('keyType'), `${path}{key}`), ...unmarkedTexts(of('valueType'), `${path}{}`)];
    case 'object':
      return Object.entries(def['shape'] as Record<string, z.core.$ZodType>).flatMap(([key, each]) =>
        unmarkedTexts(each, path === '' ? key : `${path}.${key}`),
      );
    case 'union':
      return (def['options'] as z.core.$ZodType[]).flatMap((each) => unmarkedTexts(each, path));
    case 'tuple':
      return (def['items'] as z.core.$ZodType[]).flatMap((each) => unmarkedTexts(each, path));
    case 'number':
    case 'int':
    case 'boolean':
    case 'enum':
    case 'literal':
    case 'null':
      return [];
    default:
      return [`${path} (${def.type}: not walked)`];
  }
}
