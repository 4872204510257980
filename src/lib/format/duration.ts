/** A space at which no line breaks: a figure and its unit stay together. */
const NO_BREAK = '\u00A0';

/** Seconds in prose: `83` → "1 min 23 s", with no-break spaces. Whole seconds; "under 1 s" where that rounds to 0. */
export function prose(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  if (whole === 0) return `under${NO_BREAK}1${NO_BREAK}s`;
  const [minutes, rest] = [Math.floor(whole / 60), whole % 60];
  if (minutes === 0) return `${rest}${NO_BREAK}s`;
  return [minutes, 'min', ...(rest === 0 ? [] : [rest, 's'])].join(NO_BREAK);
}

/** Text on its way to a file, a terminal or another program, where ordinary spaces are expected. */
export const plainBlanks = (text: string): string => text.replaceAll(NO_BREAK, ' ');

/** Seconds in a table or a chart: `83` → "1:23", `3723` → "1:02:03". */
export function clock(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const two = (value: number) => String(value).padStart(2, '0');
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60];
  return hours > 0 ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
}
