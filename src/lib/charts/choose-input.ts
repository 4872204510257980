/** What the Choose drawing is given: numbers to place and words to print, all made elsewhere. */
export type ChooseRow = {
  id: string;
  href: string;
  label: string;
  /** The median in table form, or `null` with no case. */
  usual: string | null;
  /** How often the step came first, in words; may be empty. */
  certainty: string;
  suggested: boolean;
  /** One per case: its time over the median, and that time in table form. */
  dots: readonly { code: string; ratio: number; said: string }[];
  /** Two thirds of cases as ratios of the median; `said` is read out. */
  range: { low: number; high: number; said: string } | null;
  /** Median of the reference set over the surgeon's own. */
  reference: { ratio: number; said: string } | null;
  /**
   * Median less 20th percentile, seconds, with its interval: what is left among the same kind of eye, and beyond it what
   * goes with the eye (`withEye`, 0 where the two are not told apart). `said` is printed, and where there is room
   * `saidWithEye` behind it; `told` is read out.
   */
  bar: {
    seconds: number;
    withEye: number;
    low: number;
    high: number;
    said: string;
    saidWithEye: string;
    told: string;
  } | null;
  /** Printed in place of the bar: the step is not to be shortened. */
  instead: string | null;
  /** Seconds a case; only where it is worth drawing. */
  waiting: { seconds: number; said: string } | null;
};

export type ChooseColumn = 'seconds' | 'spread' | 'reference';

export type ChooseInput = {
  rows: readonly ChooseRow[];
  /** The view: which column stands out. Rows never move. */
  column: ChooseColumn;
  /** The row the title names: it alone carries the accent. */
  named: string | null;
  /** What is known of the eye of each case, by its code; read out with its points. */
  eyes?: ReadonlyMap<string, string>;
  seed: number;
};
