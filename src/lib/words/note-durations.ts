/**
 * Text meant for the note for the list carries no time: no "under 60 s", no "1:30", no "half a minute".
 * Returns the first such bit, or `null`. Counts of other things ("two bursts") are fine.
 */
export function durationIn(text: string): string | null {
  for (const pattern of DURATIONS) {
    const match = pattern.exec(text);
    if (match) return match[0].trim();
  }
  return null;
}

const NUMBER = String.raw`(?:one|two|three|four|five|six|seven|eight|nine|ten|fifteen|twenty|thirty|forty|fifty|sixty|ninety|half a|half an|a|a few|some)`;

const DURATIONS = [
  /\b\d+(?:[.,]\d+)?[\s-]*(?:seconds?|secs?|minutes?|mins?|hours?)\b/i,
  // "60s", "60 s", "1m30": the short units only straight after a figure.
  /\b\d+(?:[.,]\d+)?\s?(?:s|m|h|″|")(?![a-z])/i,
  /\b\d+\s?m(?:in)?\s?\d+/i,
  /\b\d{1,2}:\d{2}(?::\d{2})?\b/,
  // "second" alone may be the second hand or instrument; minutes and plurals are always times.
  new RegExp(String.raw`\b(?:${NUMBER}[\s-]*)?(?:seconds|secs|minutes?|mins?|hours?)\b`, 'i'),
];
