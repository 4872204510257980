/** What a heading says about bare numbers under it; `clock`: minutes and seconds with a colon. */
export type HeadingUnit = 'seconds' | 'minutes' | 'minutes-seconds' | 'clock';

const UNITS: readonly { unit: HeadingUnit; written: string }[] = [
  { unit: 'clock', written: String.raw`h{1,2}:mm:ss|m{1,2}:ss|min:sec|min:s|mins:secs` },
  { unit: 'minutes-seconds', written: String.raw`m{1,2}\.ss|min\.sec|min\.s` },
  { unit: 'minutes', written: 'minutes|minute|mins|min' },
  { unit: 'seconds', written: 'seconds|second|secs|sec|s' },
];

/**
 * Takes the unit off a heading: "Rhexis (min)" → "Rhexis", minutes; "start_s" → "start", seconds.
 * A heading that is only a unit ("seconds") keeps its name and has the unit.
 */
export function headingUnit(heading: string): { name: string; unit: HeadingUnit | null } {
  const text = heading.trim();
  for (const { unit, written } of UNITS) {
    if (new RegExp(`^[[(]?(${written})[\\])]?\\.?$`, 'i').test(text)) return { name: text, unit };
    const found = new RegExp(
      `^(.*?)(?:\\s*[[(]\\s*(?:in )?(?:${written})\\.?\\s*[\\])]|[\\s_,/-]+(?:in )?(?:${written}))\\.?$`,
      'i',
    ).exec(text);
    if (found?.[1]?.trim()) return { name: found[1].trim(), unit };
  }
  return { name: text, unit: null };
}
