import { countedCases, latestShown } from '../../audit';
import type { Case, Procedure } from '../../model';
import { median } from '../../statistics';
import { counted, prose } from '../../format';

/** The note on waiting for the team: reasons alone. Nothing in it tells who, when, on which shift or how far into a list. */
export type WaitingNote = {
  procedure: string;
  /** Most time first. */
  rows: readonly { reason: string; cases: string; each: string }[];
  lead: string;
  /** Reasons too rare to be shown, as a count; `null` for none. */
  notShown: string | null;
};

/** A reason in fewer cases could be traced to a day, and so to people; and its median length would say little. */
const FEWEST = 10;

/** Reasons that do not concern the surgeon and the team. */
const NOT_FOR_THE_TEAM = ['other-work', 'recording-paused'];

/**
 * Waiting by reason over the latest counted cases. `null` where none is noted, so that there is nothing to talk about.
 * @param cases without those of a running window, whose times are kept from view
 */
export function waitingNote(cases: readonly Case[], procedure: Procedure): WaitingNote | null {
  const shown = latestShown(countedCases(cases, procedure));
  const seconds = new Map<string | null, number[]>();
  for (const one of shown) {
    const ofCase = new Map<string | null, number>();
    for (const { kind, reason, seconds: length } of one.stretches)
      if (kind === 'waiting' && !NOT_FOR_THE_TEAM.includes(reason ?? ''))
        ofCase.set(reason, (ofCase.get(reason) ?? 0) + length);
    for (const [reason, length] of ofCase) seconds.set(reason, [...(seconds.get(reason) ?? []), length]);
  }
  if (seconds.size === 0) return null;
  const often = [...seconds].filter(([, lengths]) => lengths.length >= FEWEST);
  const rare = seconds.size - often.length;
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  return {
    procedure: procedure.name,
    rows: often
      .sort(([a, x], [b, y]) => sum(y) - sum(x) || (String(a) < String(b) ? -1 : 1))
      .map(([reason, lengths]) => ({
        reason: reasonWords(reason, procedure),
        cases: `${lengths.length} of ${shown.length}`,
        each: prose(median(lengths)),
      })),
    lead: `From ${counted(shown.length, 'timed operation')}: time in which the operation could not go on, by reason alone.`,
    notShown:
      rare === 0
        ? null
        : `${counted(rare, 'reason')} noted in fewer than ${FEWEST} cases ${rare === 1 ? 'is' : 'are'} not shown.`,
  };
}

function reasonWords(reason: string | null, procedure: Procedure): string {
  if (reason === null) return 'reason not noted';
  return procedure.waitingReasons.find(({ id }) => id === reason)?.label ?? reason;
}
