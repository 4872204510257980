/** What a heading says about bare numbers under it; `clock`: minutes and seconds with a colon. */
export type HeadingUnit = 'seconds' | 'minutes' | 'minutes-seconds' | 'clock';

const UNITS = (
  [
    ['clock', String.raw`h{1,2}:mm:ss|m{1,2}:ss|min:sec|min:s|mins:secs`],
    ['minutes-seconds', String.raw`m{1,2}\.ss|min\.sec|min\.s`],
    ['minutes', 'minutes|minute|mins|min'],
    ['seconds', 'seconds|second|secs|sec|s'],
  ] as const
).map(([unit, written]) => ({
  unit,
  alone: new RegExp(`^[[(]?(${written})[\\])]?\\.?$`, 'i'),
  after: new RegExp(
    `^(.*?)(?:\\s*[[(]\\s*(?:in )?(?:${written})\\.?\\s*[\\])]|[\\s_,/-]+(?:in )?(?:${written}))\\.?$`,
    'i',
  ),
}));

/**
 * Takes the unit off a heading: "Rhexis (min)" → "Rhexis", minutes; "start_s" → "start", seconds.
 * A heading that is only a unit ("seconds") keeps its name and has the unit.
 */
export function headingUnit(heading: string): { name: string; unit: HeadingUnit | null } {
  const text = heading.trim();
  for (const { unit, alone, after } of UNITS) {
    if (alone.test(text)) return { name: text, unit };
    const name = after.exec(text)?.[1]?.trim();
    if (name) return { name, unit };
  }
  return { name: text, unit: null };
}
