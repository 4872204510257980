import type { NowWords } from '../../words/now';
import type { StagedGoal } from '../goals/goal-standing';

export type NowState =
  'empty' | 'not-enough' | 'nothing' | 'choose' | 'paused' | 'draft' | 'window' | 'full' | 'deciding' | 'following';

export type Link = { href: string; label: string };

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

export const BRING_IN: Link = { href: '/cases/bring-in', label: 'Bring in times' };
export const CHOOSE: Link = { href: '/choose', label: 'Choose a step' };
export const BEFORE: Link = { href: '/before-a-list', label: 'Before a list' };
export const REFLECT: Link = { href: '/reflect', label: 'Reflect' };
export const after = ({ goal }: StagedGoal): string => `/after-twenty/${goal.id}`;

export const plain = (state: NowState, words: NowWords, action: Link): NowView => ({
  state,
  ...words,
  action,
  also: [],
  others: [],
});
