import { lessOrMore, prose } from '../format';
import type { Effect } from '../model';
import type { RecordedChange } from '../practice';

/** What stands in the block of a result: medians as recorded, this step alone, and how much of it the eyes explain. */
export function recordedChangeWords(change: RecordedChange, plain: Effect | null): string[] {
  const { baseline, window, nBaseline, nWindow, withEyes } = change;
  const recorded = `Median as recorded: ${prose(window)} in the window (${nWindow} cases), ${prose(baseline)} before (${nBaseline}).`;
  if (!plain || withEyes === null) return [recorded];
  const eyes = lessOrMore(Math.exp(withEyes));
  return [
    recorded,
    `This step alone, adjusted for the eye: about ${lessOrMore(Math.exp(plain.estimate))} time.`,
    Math.abs(withEyes) < EYES_ALIKE
      ? 'The eyes of the two explain hardly any of it.'
      : `The eyes of the window alone would give about ${eyes} time.`,
  ];
}

/** Below one in a hundred a difference of the eyes is not worth a figure. */
const EYES_ALIKE = 0.01;
