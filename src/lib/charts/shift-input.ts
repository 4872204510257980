/** One case after the start, in order of time. */
export type ShiftCase = {
  id: string;
  /** Which period it belongs to: the index in `periods`. */
  period: number;
  /** What is read out of it. */
  said: string;
  /** Its height on each line; what is no number leaves a hole in the line. */
  at: readonly number[];
};

/** What a chart that adds neighbours up is given: lines to draw and words to print, all made elsewhere. Up is longer. */
export type ShiftInput = {
  /** `ratio`: log axis round 1, printed as per cent; `sd`: linear round 0, printed in standard deviations. */
  unit: 'ratio' | 'sd';
  cases: readonly ShiftCase[];
  periods: readonly { id: string; label: string }[];
  /** Name of each line, printed at its end; `''` where there is only one. */
  lines: readonly string[];
  /** One height a case each; a thin line with its name. */
  limits: readonly { name: string; at: readonly number[] }[];
  /** The first case beyond a limit, ringed, with its words. */
  signal: { index: number; line: number; words: string } | null;
};
