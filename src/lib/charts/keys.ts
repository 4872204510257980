/** What the marks mean, for the drawings whose marks never change; the same under the drawing and in its file. */
export const KEYS = {
  change: '100 = your baseline median · ● estimate · line: 95 % interval · arrow: beyond the axis',
  patterns: '● about this many times as long · line: 95 % interval · arrow: beyond the axis',
  done: 'filled: done or seen · half: partly · open: not · dot: does not apply · low stroke: not answered',
  safety: 'E: event · ?: not answered · open: answered, none',
} as const;
