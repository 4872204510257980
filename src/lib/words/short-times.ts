/** More very short times in a window than chance would bring: a question, never praise. `short` of `of` times. */
export const shortTimesWords = ({ short, of }: { short: number; of: number }): string =>
  `${short} of these ${of} times, adjusted for the eye, are shorter than nine in ten of the baseline cases. Look: was anything left out? They count as they were recorded.`;
