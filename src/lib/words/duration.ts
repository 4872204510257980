/** A blank at which no line ends: a figure and its unit stay together. */
const NO_BREAK = '\u00A0';

/** Seconds as prose: `83` → "1 min 23 s", with no-break blanks. Whole seconds; below a second "under 1 s". */
export function prose(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  if (whole === 0) return `under${NO_BREAK}1${NO_BREAK}s`;
  const [minutes, rest] = [Math.floor(whole / 60), whole % 60];
  if (minutes === 0) return `${rest}${NO_BREAK}s`;
  return [minutes, 'min', ...(rest === 0 ? [] : [rest, 's'])].join(NO_BREAK);
}

/** Text as it leaves for a file, a terminal or another program, where an ordinary blank is expected. */
export const plainBlanks = (text: string): string => text.replaceAll(NO_BREAK, ' ');

/** Seconds for a table: `83` → "1:23", `3723` → "1:02:03". */
export function clock(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const two = (value: number) => String(value).padStart(2, '0');
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60];
  return hours > 0 ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
}
