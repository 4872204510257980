/** One case of a run, in order of time. */
export type RunCase = {
  id: string;
  code: string;
  /** Which period it belongs to: the index in `periods`. */
  period: number;
  /** Over the baseline median; `null` where there is nothing to place (the step not done, or left out). */
  ratio: number | null;
  /** Left out: a cross on the axis. */
  leftOut: boolean;
  /** Which list it was on: cases with the same value, next to each other, share a dash. `null`: not known. */
  list: string | null;
  /** A reflection was written about it. */
  note: boolean;
  events: 'event' | 'not-answered' | 'none';
  /** What is said about it beside its code. */
  said: string;
  /** Printed beside its mark ("shorter", "longer"). */
  mark?: string;
};

/** A stretch of cases under one bracket; its marks have one shape. */
export type RunPeriod = {
  id: string;
  label: string;
  shape: 'open-circle' | 'filled-circle' | 'open-square';
  /** Drawn as one thick line; `null`: none to draw (baseline cases, or a window that still runs). */
  median: number | null;
  /** The period the title names: its median alone carries the accent. */
  named: boolean;
  /** Where the drawing is too narrow, only the latest cases of this period are drawn. */
  mayShorten: boolean;
};

export type RunInput = {
  cases: readonly RunCase[];
  periods: readonly RunPeriod[];
  /** 3-sigma limits of the baseline cases, as ratios; drawn over those alone. */
  limits: { low: number; high: number } | null;
  /** What 1 means, for the axis: "100", or "your median". */
  one: string;
  lanes: readonly ('lists' | 'notes' | 'events')[];
};
