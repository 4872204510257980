import type { Fields } from '../rooms/forms/fields';

/** A posted form as names and texts; files are left out. */
export function fieldsOf(form: FormData): Fields {
  const fields: Record<string, string[]> = {};
  for (const [name, value] of form) if (typeof value === 'string') (fields[name] ??= []).push(value);
  return fields;
}
