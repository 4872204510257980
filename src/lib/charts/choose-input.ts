/** What the Choose drawing is given: numbers to place and words to print, all made elsewhere. */
export type ChooseRow = {
  id: string;
  href: string;
  label: string;
  /** The usual time in table form, or `null` with no case. */
  usual: string | null;
  /** How often the step came first, in words; may be empty. */
  certainty: string;
  suggested: boolean;
  /** A case each: its time over the usual, and that time in table form. */
  dots: readonly { code: string; ratio: number; said: string }[];
  /** Usual range (two thirds of cases) as ratios of the usual; `said` is read out. */
  range: { low: number; high: number; said: string } | null;
  /** Usual of the reference set over the own usual. */
  reference: { ratio: number; said: string } | null;
  /** Usual less one in five, seconds, with its interval; `said` is printed, `told` is read out. */
  bar: { seconds: number; low: number; high: number; said: string; told: string } | null;
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
  seed: number;
};
