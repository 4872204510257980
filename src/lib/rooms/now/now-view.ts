import type { Enough } from '../../audit/types';
import type { SurgeonRecord } from '../../model';
import type { Suggestion } from '../../rules/types';
import { beforeYouChoose, type SuggestionWords } from '../../words';
import {
  CASES_HERE,
  enoughToChooseWords,
  eventWaitsWords,
  MOSTLY_WAITING,
  notEnoughWords,
  noTimesWords,
  NOTHING_HERE,
} from '../../words/now';
import { goalInOneLine } from '../after-twenty/goal-lines';
import { eventKindWords } from '../forms/event-fields';
import { openGoals } from '../goals/goal-standing';
import { nowOfGoal } from './now-of-goal';
import { after, BRING_IN, CHOOSE, plain, type NowView } from './now-parts';
import { waitingEvents } from './waiting-events';

/** What the audit says where no goal is open: whether it is enough, and what is suggested. */
export type Look = {
  enough: Enough;
  twoToWatch: boolean;
  suggestion: Pick<Suggestion, 'kind'>;
  words: Pick<SuggestionWords, 'head' | 'lede'>;
};

/** Is the audit needed to tell the state? Only where there are times, no goal is open, and nothing waits for review. */
export function needsLook(record: SurgeonRecord): boolean {
  return anyTimes(record) && openGoals(record).length === 0 && waitingEvents(record).length === 0;
}

const anyTimes = ({ cases }: SurgeonRecord): boolean => cases.some(({ stretches }) => stretches.length > 0);

/**
 * Where the surgeon is, and what comes next.
 * @param look needed only where `needsLook` says so
 */
export function nowView(record: SurgeonRecord, look: Look | null): NowView {
  const goals = openGoals(record);
  const [first, ...rest] = goals;
  const others = rest.map((each) => ({ words: goalInOneLine(each), href: after(each) }));
  if (record.cases.length === 0 && !first) return plain('empty', NOTHING_HERE, BRING_IN);

  const [event, ...more] = waitingEvents(record);
  if (event) {
    const kind = eventKindWords(event.kind, event.procedure);
    const words = eventWaitsWords(kind, event.stepLabel, event.of, more.length);
    return {
      ...plain('paused', words, { href: event.href, label: 'Review the event' }),
      others: goals.map((each) => ({ words: goalInOneLine(each), href: after(each) })),
    };
  }
  if (first) return { ...nowOfGoal(first, record), others };
  if (!anyTimes(record)) return plain('not-enough', noTimesWords(record.cases.length), BRING_IN);
  return look ? ofLook(look) : plain('choose', CASES_HERE, CHOOSE);
}

function ofLook(look: Look): NowView {
  const { enough, suggestion, words } = look;
  if (!enough.enough) return plain('not-enough', notEnoughWords(enough), BRING_IN);
  const choose = { href: '/choose', label: 'Look at Choose' };
  // In the words of Choose: the two never give another reason for the same answer.
  if (suggestion.kind === 'nothing' || suggestion.kind === 'held-back')
    return plain('nothing', { head: words.head, rest: words.lede.join(' ') }, choose);
  if (suggestion.kind === 'waiting') return plain('nothing', MOSTLY_WAITING, choose);
  return plain('choose', enoughToChooseWords(beforeYouChoose(look)), CHOOSE);
}
