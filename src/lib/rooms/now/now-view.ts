import type { Enough } from '../../audit/types';
import { runsFrom, type Goal, type SurgeonRecord } from '../../model';
import type { Suggestion } from '../../rules/types';
import { capital, counted, inSentence } from '../../format';
import {
  ANSWER_FIRST,
  beforeYouChoose,
  enoughWords,
  lastingWaitsWords,
  waitsWords,
  type SuggestionWords,
} from '../../words';
import { overLists } from '../../words/reported-result';
import { eventKindWords } from '../forms/event-fields';
import { goalInOneLine, retiredWords } from '../after-twenty/goal-lines';
import { aimedNotices } from '../goals/aimed-goal';
import { lastingToRead, lastingWaits, openGoals, type StagedGoal } from '../goals/goal-standing';
import { EVENT_ASKS } from '../../words/event-question';
import { eventQuestion } from '../goals/event-question';
import { waitingForReview } from '../goals/waiting-for-review';
import { instantWords } from '../forms/when-words';
import { waitingEvents } from './waiting-events';

export type NowState =
  'empty' | 'not-enough' | 'nothing' | 'choose' | 'paused' | 'draft' | 'window' | 'full' | 'deciding' | 'following';

type Link = { href: string; label: string };

/** One sentence of state, one action. No times anywhere. */
export type NowView = {
  state: NowState;
  head: string;
  rest: string;
  action: Link;
  /** What is due beside it, at most two. */
  also: readonly Link[];
  /** Other open goals, a line each. */
  others: readonly { words: string; href: string }[];
};

/** What the audit says where no goal is open: whether it is enough, and what is suggested. */
export type Look = {
  enough: Enough;
  twoToWatch: boolean;
  suggestion: Pick<Suggestion, 'kind'>;
  words: Pick<SuggestionWords, 'head' | 'lede'>;
};

const BRING_IN: Link = { href: '/cases/bring-in', label: 'Bring in times' };
const BEFORE: Link = { href: '/before-a-list', label: 'Before a list' };
const REFLECT: Link = { href: '/reflect', label: 'Reflect' };
const after = ({ goal }: StagedGoal): string => `/after-twenty/${goal.id}`;

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
  if (record.cases.length === 0 && !first)
    return plain('empty', 'Nothing here yet.', 'Bring in times of at least 20 cases to see where to look.', BRING_IN);

  const [event, ...more] = waitingEvents(record);
  if (event) {
    const where = event.stepLabel ? `, at ${inSentence(event.stepLabel)}` : '';
    return {
      ...plain(
        'paused',
        `Safety first: ${more.length === 0 ? 'a serious event waits' : `${more.length + 1} serious events wait`} for your review`,
        `(${eventKindWords(event.kind, event.procedure)}${where}; ${event.of}${more.length > 0 ? `; ${more.length} more` : ''}). No change in time is called a result until ${more.length === 0 ? 'it' : 'each'} has one.`,
        { href: event.href, label: 'Review the event' },
      ),
      others: goals.map((each) => ({ words: goalInOneLine(each), href: after(each) })),
    };
  }
  if (first) return { ...ofGoal(first, record), others };
  if (!anyTimes(record))
    return plain(
      'not-enough',
      'No times yet.',
      `${capital(counted(record.cases.length, 'case'))} ${record.cases.length === 1 ? 'is' : 'are'} here without times. Times of at least 20 show where to look.`,
      BRING_IN,
    );
  return look ? ofLook(look) : plain('choose', 'Your cases are here.', '', { href: '/choose', label: 'Choose a step' });
}

const plain = (state: NowState, head: string, rest: string, action: Link): NowView => ({
  state,
  head,
  rest,
  action,
  also: [],
  others: [],
});

function ofLook(look: Look): NowView {
  const { enough, suggestion, words } = look;
  if (!enough.enough)
    return plain('not-enough', 'Not enough yet.', enoughWords(enough).replace(/ Your times.*$/, ''), BRING_IN);
  const choose = { href: '/choose', label: 'Look at Choose' };
  // In the words of Choose: the two never give another reason for the same answer.
  if (suggestion.kind === 'nothing' || suggestion.kind === 'held-back')
    return plain('nothing', words.head, words.lede.join(' '), choose);
  if (suggestion.kind === 'waiting')
    return plain(
      'nothing',
      'Most of the time that varies is waiting.',
      'That is a matter for the team, and part of it is checking.',
      choose,
    );
  return plain(
    'choose',
    'Your record has enough cases to choose one step to look at closely.',
    `${capital(beforeYouChoose(look))}.`,
    {
      href: '/choose',
      label: 'Choose a step',
    },
  );
}

function ofGoal(state: StagedGoal, record: SurgeonRecord): NowView {
  const { goal, stage } = state;
  const step = inSentence(state.step.label);
  const question = eventQuestion({ ...state, cases: record.cases });
  if (question)
    return {
      ...plain('deciding', `The goal on ${step}: an event asks for a decision.`, `${question} ${EVENT_ASKS}`, {
        href: after(state),
        label: 'Decide',
      }),
      also: [BEFORE],
    };
  switch (stage) {
    case 'paused':
      return plain('paused', `The goal on ${step} is paused.`, pauseWords(state), {
        href: after(state),
        label: 'See why, and decide',
      });
    case 'draft':
      return {
        ...plain(
          'draft',
          `Your plan for ${step} waits for your supervisor.`,
          'Until it is agreed, it covers only drills off the patient.',
          {
            href: `/plan/${goal.id}`,
            label: 'Open the plan',
          },
        ),
        also: [BEFORE],
      };
    case 'full':
      return full(state, record, step);
    case 'deciding':
      return plain(
        'deciding',
        `The result on ${step} is in.`,
        'Decide what comes next: keep, change the checkpoints, or move on.',
        {
          href: after(state),
          label: 'Decide',
        },
      );
    case 'following':
      return following(state, record, step);
    case 'window':
      return running(state, record, step);
  }
}

/** Answers come before the result: what is known of it would colour them. It can be read at once all the same. */
function full(state: StagedGoal, record: SurgeonRecord, step: string): NowView {
  const read: Link = { href: after(state), label: 'Read the result' };
  const head = `The next ${numberWords(state.window.need.cases)} are complete.`;
  const waiting = waitingForReview(record, state.goal).length;
  return waiting === 0
    ? plain('full', head, `The result on ${step} is ready to be read.`, read)
    : { ...plain('full', head, `${waitsWords(waiting)} ${ANSWER_FIRST}`, REFLECT), also: [read] };
}

function running(state: StagedGoal, record: SurgeonRecord, step: string): NowView {
  const { window, goal } = state;
  const { need, lists, listsKnown } = window;
  const count = window.running.length;
  const waiting = waitingForReview(record, goal).length;
  const over = listsKnown && count > 0 ? overLists(lists, need.lists) : '';
  return {
    ...plain(
      'window',
      `${capital(step)}: ${Math.min(count, need.cases)} of ${need.cases} counted${over}.`,
      [
        waiting === 0 ? 'Nothing waits for your review.' : waitsWords(waiting),
        ...(window.operatedBefore > 0 ? [beforeWords(window.operatedBefore, goal)] : []),
        ...(state.step.retired ? [retiredWords(state.step.label)] : []),
        ...aimedNotices(state, record.lists),
      ].join(' '),
      waiting > 0 ? REFLECT : BEFORE,
    ),
    also: waiting > 0 ? [BEFORE] : [],
  };
}

/** Without this the count would seem to stand still: by the day of its list a case came before the goal. */
function beforeWords(cases: number, goal: Goal): string {
  const day = `before the goal was ${goal.agreedAt ? 'agreed' : 'set'} (${instantWords(runsFrom(goal))})`;
  return cases === 1
    ? `1 case is dated ${day} and counts for neither period; if that is wrong, correct the date of its list.`
    : `${counted(cases, 'case')} are dated ${day} and count for neither period; if that is wrong, correct the dates of their lists.`;
}

function following(state: StagedGoal, record: SurgeonRecord, step: string): NowView {
  const { window, goal } = state;
  const unread = lastingToRead(state);
  const held = unread > 0 ? null : lastingWaits(state);
  const waiting = waitingForReview(record, goal).length;
  const head =
    unread > 0 || held
      ? `${capital(step)}: ${unread <= 1 ? 'a following twenty is' : `${unread} following twenties are`} complete.`
      : `${capital(step)}: ${window.running.length} of the following twenty counted.`;
  return {
    ...plain(
      'following',
      head,
      [...(held ? [lastingWaitsWords(held)] : []), ...(waiting === 0 ? [] : [waitsWords(waiting)])].join(' '),
      unread > 0 ? { href: after(state), label: 'See whether it lasted' } : waiting > 0 ? REFLECT : BEFORE,
    ),
    also: [
      ...(unread > 0 && waiting > 0 ? [REFLECT] : []),
      ...(unread > 0 || waiting > 0 ? [BEFORE] : []),
      { href: '/choose', label: 'Choose another step' },
    ].slice(0, 2),
  };
}

function pauseWords({ goal }: StagedGoal): string {
  const reason = goal.decisions.findLast(({ kind }) => kind === 'pause')?.reason ?? '';
  return reason === ''
    ? 'Talk to your supervisor or clinical lead before your next list.'
    : `${capital(reason)}${/[.!?]$/.test(reason) ? '' : '.'}`;
}

const numberWords = (cases: number): string => (cases === 20 ? 'twenty' : cases === 40 ? 'forty' : `${cases} cases`);
