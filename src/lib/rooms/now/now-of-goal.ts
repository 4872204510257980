import { inSentence } from '../../format';
import { runsFrom, type Goal, type SurgeonRecord } from '../../model';
import { ANSWER_FIRST, lastingWaitsWords, waitsWords } from '../../words';
import { retiredWords } from '../../words/after-twenty';
import { EVENT_ASKS } from '../../words/event-question';
import {
  datedBeforeWords,
  decidingWords,
  draftGoalWords,
  eventAsksHead,
  followingHead,
  fullHead,
  NOTHING_WAITS,
  pausedGoalWords,
  readyToReadWords,
  runningHead,
} from '../../words/now';
import { overLists } from '../../words/reported-result';
import { instantWords } from '../forms/when-words';
import { aimedNotices } from '../goals/aimed-goal';
import { eventQuestion } from '../goals/event-question';
import { lastingToRead, lastingWaits, type StagedGoal } from '../goals/goal-standing';
import { waitingForReview } from '../goals/waiting-for-review';
import { after, BEFORE, plain, REFLECT, type Link, type NowView } from './now-parts';

/** What Now says of an open goal, and the one thing to do. */
export function nowOfGoal(state: StagedGoal, record: SurgeonRecord): NowView {
  const { goal, stage } = state;
  const step = inSentence(state.step.label);
  const question = eventQuestion({ ...state, cases: record.cases });
  const decide: Link = { href: after(state), label: 'Decide' };
  if (question)
    return {
      ...plain('deciding', { head: eventAsksHead(step), rest: `${question} ${EVENT_ASKS}` }, decide),
      also: [BEFORE],
    };
  switch (stage) {
    case 'paused':
      return plain('paused', pausedGoalWords(step, pauseReason(goal)), {
        href: after(state),
        label: 'See why, and decide',
      });
    case 'draft':
      return {
        ...plain('draft', draftGoalWords(step), { href: `/plan/${goal.id}`, label: 'Open the plan' }),
        also: [BEFORE],
      };
    case 'full':
      return full(state, record, step);
    case 'deciding':
      return plain('deciding', decidingWords(step), decide);
    case 'following':
      return following(state, record, step);
    case 'window':
      return running(state, record, step);
  }
}

/** Answers come before the result: what is known of it would colour them. It can be read at once all the same. */
function full(state: StagedGoal, record: SurgeonRecord, step: string): NowView {
  const read: Link = { href: after(state), label: 'Read the result' };
  const head = fullHead(state.window.need.cases);
  const waiting = waitingForReview(record, state.goal).length;
  return waiting === 0
    ? plain('full', { head, rest: readyToReadWords(step) }, read)
    : { ...plain('full', { head, rest: `${waitsWords(waiting)} ${ANSWER_FIRST}` }, REFLECT), also: [read] };
}

function running(state: StagedGoal, record: SurgeonRecord, step: string): NowView {
  const { window, goal } = state;
  const { need, lists, listsKnown } = window;
  const count = window.running.length;
  const waiting = waitingForReview(record, goal).length;
  const over = listsKnown && count > 0 ? overLists(lists, need.lists) : '';
  const rest = [
    waiting === 0 ? NOTHING_WAITS : waitsWords(waiting),
    ...(window.operatedBefore > 0
      ? [datedBeforeWords(window.operatedBefore, Boolean(goal.agreedAt), instantWords(runsFrom(goal)))]
      : []),
    ...(state.step.retired ? [retiredWords(state.step.label)] : []),
    ...aimedNotices(state, record.lists),
  ].join(' ');
  return {
    ...plain('window', { head: runningHead(step, count, need.cases, over), rest }, waiting > 0 ? REFLECT : BEFORE),
    also: waiting > 0 ? [BEFORE] : [],
  };
}

function following(state: StagedGoal, record: SurgeonRecord, step: string): NowView {
  const { window, goal } = state;
  const unread = lastingToRead(state);
  const held = unread > 0 ? null : lastingWaits(state);
  const waiting = waitingForReview(record, goal).length;
  const complete = unread > 0 ? unread : held ? 1 : 0;
  const rest = [...(held ? [lastingWaitsWords(held)] : []), ...(waiting === 0 ? [] : [waitsWords(waiting)])].join(' ');
  return {
    ...plain(
      'following',
      { head: followingHead(step, complete, window.running.length), rest },
      unread > 0 ? { href: after(state), label: 'See whether it lasted' } : waiting > 0 ? REFLECT : BEFORE,
    ),
    also: [
      ...(unread > 0 && waiting > 0 ? [REFLECT] : []),
      ...(unread > 0 || waiting > 0 ? [BEFORE] : []),
      { href: '/choose', label: 'Choose another step' },
    ].slice(0, 2),
  };
}

const pauseReason = ({ decisions }: Goal): string => decisions.findLast(({ kind }) => kind === 'pause')?.reason ?? '';
