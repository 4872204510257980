/** What a form was sent with: names and texts, as an action hands them back. */
export type FormValues = Readonly<Record<string, readonly string[]>>;
export type FormError = { field: string; message: string };

/** The first text of a field; '' where there is none. */
export const valueOf = (values: FormValues | undefined, name: string, otherwise = ''): string =>
  values ? (values[name]?.[0] ?? '') : otherwise;

/** The message of a field, for its own error line. */
export const errorOf = (errors: readonly FormError[] | undefined, field: string): string | undefined =>
  errors?.find((error) => error.field === field)?.message;
