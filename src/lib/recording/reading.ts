/** A place in a recording, seconds: "4:18", or with tenths "4:18.6"; "1:02:03" from an hour on. Cut, not rounded, as a player's clock is. */
export function readingOf(seconds: number, places: 0 | 1 | 3 = 0): string {
  const thousandths = Math.max(0, Math.round(seconds * 1000));
  const [hours, minutes, rest] = [
    Math.floor(thousandths / 3_600_000),
    Math.floor(thousandths / 60_000) % 60,
    Math.floor(thousandths / 1000) % 60,
  ];
  const two = (value: number) => String(value).padStart(2, '0');
  const fraction =
    places === 0
      ? ''
      : `.${String(thousandths % 1000)
          .padStart(3, '0')
          .slice(0, places)}`;
  return `${hours > 0 ? `${hours}:${two(minutes)}` : minutes}:${two(rest)}${fraction}`;
}

/** A place as typed: "83", "83.5", "1:23", "1:23,5" or "1:02:03". Seconds; `null` for anything else. */
export function readingFrom(text: string): number | null {
  const written = /^(?:(?:(\d{1,2}):)?(\d{1,3}):)?(\d{1,5}(?:[.,]\d{1,3})?)$/.exec(text.trim());
  if (!written) return null;
  const [, hours, minutes, rest = '0'] = written;
  const seconds = Number(rest.replace(',', '.'));
  if (minutes !== undefined && seconds >= 60) return null;
  if (hours !== undefined && Number(minutes) >= 60) return null;
  return Math.round((Number(hours ?? 0) * 3600 + Number(minutes ?? 0) * 60 + seconds) * 1000) / 1000;
}
