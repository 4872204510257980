/** A line of the history as it is kept, "Nucleus: hard → soft", in words; neither typeface holds the arrow. */
export const changeWords = (kept: string): string => kept.replaceAll(' → ', ', now ');
