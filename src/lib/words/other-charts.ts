/** Where a chart first lay beyond a limit. */
export type Crossing = { code: string; number: number; side: 'shorter' | 'longer' };

type ChartWords = { title: string; reading: string; key: string };

const RING = 'ring: the first case beyond a limit';

/** What the two charts say: the title is the answer, the reading says how to see it. `null`: nowhere beyond a limit. */
export function otherChartWords({
  cases,
  starting,
  average,
  sums,
}: {
  cases: number;
  starting: number;
  average: Crossing | null;
  sums: Crossing | null;
}): { average: ChartWords; sums: ChartWords; note: string } {
  const at = ({ code, number, side }: Crossing) =>
    `at case ${code}, number ${number} after the start, on the ${side} side`;
  return {
    average: {
      title: average
        ? `Moving average (EWMA): outside its limits first ${at(average)}.`
        : `Moving average (EWMA): inside its limits over all ${cases} cases after the start.`,
      reading:
        'Each point is a fifth of the newest case and four fifths of the point before it; 100 = the mean of the baseline cases. Up is longer.',
      key: ['line: the average', 'dashed: its limits', ...(average ? [RING] : [])].join(' · '),
    },
    sums: {
      title: sums
        ? `Cumulative sum (CUSUM): over its limit first ${at(sums)}.`
        : `Cumulative sum (CUSUM): under its limit over all ${cases} cases after the start.`,
      reading:
        'The upper line adds up how far cases lie above the mean of the baseline cases, the lower one how far below, less half a standard deviation a case. In standard deviations; up is longer.',
      key: ['lines: the two sums', 'dashed: their limits', ...(sums ? [RING] : [])].join(' · '),
    },
    note: `The limits allow for a baseline of only ${starting} cases; chance alone crosses each in about 5 of 100 windows of forty${cases > 40 ? `, and more often over the ${cases} cases drawn here` : ''}. The result above does not rest on them.`,
  };
}
