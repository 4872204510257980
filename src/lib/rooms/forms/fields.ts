/** A form as it was sent: every name with its texts, in order. Nothing is converted, so an empty field stays empty. */
export type Fields = Readonly<Record<string, readonly string[]>>;

/** What a form says is wrong, by field; `field` is the id the error summary links to. */
export type FieldError = { field: string; message: string };

/** Names come from procedures too, where a step may be called anything: what every object inherits is no field. */
const own = (fields: Fields, name: string): readonly string[] =>
  Object.hasOwn(fields, name) ? (fields[name] ?? []) : [];

/** The text of a field, trimmed; '' where it is empty or was not sent. */
export const textOf = (fields: Fields, name: string): string => own(fields, name)[0]?.trim() ?? '';

/** All texts of a repeated field, trimmed, empty ones left out. */
export const textsOf = (fields: Fields, name: string): string[] =>
  own(fields, name)
    .map((text) => text.trim())
    .filter((text) => text !== '');

/** A whole number of at least `least`, `null` for an empty field; `undefined` for anything else. */
export function wholeOf(fields: Fields, name: string, least = 0): number | null | undefined {
  const text = textOf(fields, name);
  if (text === '') return null;
  // `Number('')` is 0 and `Number('1e3')` is 1000: neither is what a person means in a form.
  if (!/^\d{1,6}$/.test(text)) return undefined;
  const value = Number(text);
  return value >= least ? value : undefined;
}
