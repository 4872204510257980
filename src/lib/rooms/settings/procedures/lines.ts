/** Other names for a thing, as typed: one a line or by commas; none twice. */
export function namesFrom(text: string): string[] {
  return [
    ...new Set(
      text
        .split(/[\r\n,;]+/)
        .map((name) => name.trim().replace(/\s+/g, ' '))
        .filter((name) => name !== ''),
    ),
  ];
}

/** The same as the text of a field. */
export const namesText = (names: readonly string[]): string => names.join(', ');
