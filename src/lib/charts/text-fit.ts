/**
 * Widths of words without a browser: drawings are made on the server, which has no font to measure. The shares of the
 * type size are those of a wide sans face, so that a narrower one only leaves air.
 */
const SHARE: readonly [RegExp, number][] = [
  [/[iljtfr.,:;'|!()[\] \u00a0‹›·]/, 0.36],
  [/[mwMW%@—]/, 0.95],
  [/[A-Z]/, 0.7],
  [/[0-9]/, 0.63],
];

/** Width of a text in px at a type size in px; a slight over-estimate. Bold is about a tenth wider. */
export function textWidth(text: string, size: number, bold = false): number {
  let share = 0;
  for (const letter of text) share += SHARE.find(([pattern]) => pattern.test(letter))?.[1] ?? 0.6;
  return share * size * (bold ? 1.1 : 1);
}

/** The text, cut with an ellipsis where it would not fit. */
export function fitText(text: string, width: number, size: number, bold = false): string {
  if (textWidth(text, size, bold) <= width) return text;
  const letters = [...text];
  while (letters.length > 1 && textWidth(`${letters.join('')}…`, size, bold) > width) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}

/** The text in lines no wider than `width`; a single word that is wider is cut. A number stays with its unit. */
export function wrapText(text: string, width: number, size: number, bold = false): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text
    .replace(/(\d) (?=%|s\b|min\b)/g, '$1\u00a0')
    .split(/ +/)
    .filter(Boolean)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, size, bold) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  return lines.map((each) => fitText(each, width, size, bold));
}
