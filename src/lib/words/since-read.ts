import { capital, counted, lessOrMore, listed, rangeOfRatios } from '../format';

/** What became of cases a stored result rests on. */
export type Fate = 'taken-out' | 'left-out' | 'changed';

/** Cases of one part that met with one fate; `codes` of those that still have one, for the surgeon's own pages. */
export type FateReason = {
  code: 'fate';
  part: 'baseline' | 'window';
  fate: Fate;
  numbers: { cases: number; of: number };
  codes: readonly string[];
};

/** One thing that changed since a result was read. */
export type SinceReason = FateReason | { code: 'baseline-changed' | 'cases-changed' | 'computed-otherwise' };

/** What today's data would give, on the log scale, beside the stored result. */
export type SinceToday =
  | { code: 'not-worked-out' | 'cannot' | 'same' }
  | { code: 'moved'; numbers: { estimate: number; low: number; high: number } };

export type SinceRead = { today: SinceToday; reasons: readonly SinceReason[] };

const PARTS: Record<FateReason['part'], string> = { baseline: 'baseline cases', window: 'cases of the window' };
const FATES: Record<Fate, string> = { 'taken-out': 'taken out', 'left-out': 'left out', changed: 'changed' };

/** A longer list of edited codes would tell the reader no more. */
const CODES_NAMED = 8;

/** A reason as a sentence; with its codes where the surgeon reads it. */
export function sinceReasonWords(reason: SinceReason, withCodes: boolean): string {
  switch (reason.code) {
    case 'baseline-changed':
      return 'The baseline cases have changed since the goal was set.';
    // A clock that was set back leaves no later line in a history, so it cannot be said which cases they are.
    case 'cases-changed':
      return 'Cases it rests on have changed since.';
    case 'computed-otherwise':
      return 'Another goal, a list or the method of calculation has changed since.';
    case 'fate': {
      const { cases, of } = reason.numbers;
      const all =
        of === 1 ? `the only one of the ${PARTS[reason.part]}` : `${cases} of the ${of} ${PARTS[reason.part]}`;
      const became = `${FATES[reason.fate]}${reason.fate === 'taken-out' ? ' of the record' : ''}`;
      const which = withCodes && reason.codes.length > 0 ? `: ${codesWords(reason.codes)}` : '';
      return capital(`${all} ${cases === 1 ? 'has' : 'have'} been ${became} since${which}.`);
    }
  }
}

export function sinceTodayWords(today: SinceToday): string {
  switch (today.code) {
    case 'not-worked-out':
      return 'Something this result rests on has changed since it was read.';
    case 'cannot':
      return 'The stored figure could not be worked out again today: some of the cases it rests on are no longer there.';
    case 'moved':
      return `Today's data would give ${sinceFigure(today.numbers)}. The result above stays as it was read.`;
    case 'same':
      return "Today's data give the same figure, although something it rests on has changed.";
  }
}

/** All of it in sentences that name no case. */
export const sinceSentences = ({ today, reasons }: SinceRead): string[] => [
  sinceTodayWords(today),
  ...reasons.map((reason) => sinceReasonWords(reason, false)),
];

/** The name of its row in a file: "baseline cases taken out since the result was read". */
export const fateName = ({ part, fate }: FateReason): string =>
  `${PARTS[part]} ${FATES[fate]} since the result was read`;

/** A figure as it is printed: what prints the same has not moved. Arguments on the log scale. */
export const sinceFigure = ({ estimate, low, high }: { estimate: number; low: number; high: number }): string =>
  `${lessOrMore(Math.exp(estimate))} (${rangeOfRatios(Math.exp(low), Math.exp(high))})`;

const codesWords = (codes: readonly string[]): string =>
  codes.length > CODES_NAMED
    ? `${codes.slice(0, CODES_NAMED).join(', ')} and ${counted(codes.length - CODES_NAMED, 'other')}`
    : listed(codes);
