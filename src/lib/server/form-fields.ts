import type { Fields } from '../rooms/forms/fields';

/**
 * A posted form, or the query of an address, as names and texts; files are left out. Names that every object answers to
 * (`__proto__`, `constructor`) are names of no field here and are left out too.
 */
export function fieldsOf(form: Iterable<readonly [string, FormDataEntryValue]>): Fields {
  const fields: Record<string, string[]> = {};
  for (const [name, value] of form)
    if (typeof value === 'string' && !(name in Object.prototype)) (fields[name] ??= []).push(value);
  return fields;
}
