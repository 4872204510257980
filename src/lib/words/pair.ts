import type { PairCannot, PairCaveat, PairReason } from '../audit';
import { listed } from '../format';

type OfTimes = Extract<PairReason, { times: unknown }>['times'];

const ofTimes = ({ sameEyes, adjusted }: OfTimes) =>
  `of your own times${sameEyes ? ' in these eyes' : ''}${adjusted ? ', adjusted for the eye' : ''}`;

/** Why a case is one of a pair, as a sentence goes on. */
export const pairReasonsWords = (why: readonly PairReason[]): string => listed(why.map(pairReasonWords));

export function pairReasonWords(why: PairReason): string {
  switch (why.code) {
    case 'shorter-part':
      return `in the shorter part ${ofTimes(why.times)}, not the very shortest`;
    case 'longer-quarter':
      return `among the longer quarter ${ofTimes(why.times)}, not the very longest`;
    case 'not-returned-to':
      return 'not returned to';
    case 'no-event':
      return 'no event';
    case 'protected-parts-seen':
      return 'protected parts seen';
  }
}

/** What should be known before reading anything into a pair. */
export const pairCaveatWords = (caveat: PairCaveat): string =>
  caveat.code === 'no-fact-in-both'
    ? 'No fact of the eye was entered in both cases, so the eyes may differ.'
    : `Events were not answered in ${caveat.of ?? 'either case'}.`;

/** Why there is no pair. */
export function pairCannotWords(why: PairCannot): string {
  switch (why.code) {
    case 'no-such-step':
      return 'This step is not in the record.';
    case 'too-few-cases':
      return `A pair needs ${why.needed} cases with this step that were not noted by hand; there are ${why.cases}.`;
    case 'hardly-differ':
      return 'These times hardly differ, so no case stands out as the longer one of a pair.';
    case 'no-other':
      return 'There is no other pair of these cases.';
    case 'none-undisturbed':
      return `In the shorter part ${ofTimes(why.times)}, there is no case without an event in which the step was not returned to.`;
  }
}
