import type { LeftOutReason } from '../model';

const REASONS: Record<LeftOutReason, string> = {
  'not-the-usual-operation': 'not the usual operation',
  'recording-incomplete': 'the recording is incomplete',
  'timing-unreliable': 'the timing is unreliable',
  'not-my-hands': 'not done by me',
  'complication-outside-the-step': 'a complication outside the step',
  other: 'another reason',
};

export const leftOutWords = (reason: LeftOutReason): string => REASONS[reason];
export const leftOutOptions = Object.entries(REASONS).map(([value, label]) => ({ value, label }));
