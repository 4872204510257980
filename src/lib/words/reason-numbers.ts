/** Numbers as they stand in a reason: short, with their unit. */
export const ofHundredWords = (share: number): string => `${Math.round(100 * share)} of 100`;

export function shortSeconds(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  const rest = whole % 60;
  return rest === 0 ? `${Math.floor(whole / 60)} min` : `${Math.floor(whole / 60)} min ${rest} s`;
}

/** "1.8", "3", "12": two figures are all a ratio of times can bear. */
const shortRatio = (ratio: number): string => String(ratio >= 10 ? Math.round(ratio) : Number(ratio.toFixed(1)));

/** "1.8 times"; the words around it say of what. */
export const shortTimes = (ratio: number): string => `about ${shortRatio(ratio)} times`;

/** "1.5 to 2.1". */
export const shortRange = ({ low, high }: { low: number; high: number }): string =>
  `${shortRatio(low)} to ${shortRatio(high)}`;

/** Two thirds of cases, in seconds. */
export const twoThirdsWords = ({ low, high }: { low: number; high: number }): string =>
  `two thirds of cases between ${shortSeconds(low)} and ${shortSeconds(high)}`;
