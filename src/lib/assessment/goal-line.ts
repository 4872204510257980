import { capital, inSentence } from '../words';
import type { StagedGoal } from './goal-stage';

/** An open goal beside the most pressing one. */
export const goalInOneLine = (state: StagedGoal): string =>
  `${capital(inSentence(state.step.label))}: ${stageWords(state)}.`;

/** How far an open goal is. */
export function stageWords({ stage, window }: StagedGoal): string {
  switch (stage) {
    case 'window':
      return `${Math.min(window.running.length, window.need.cases)} of ${window.need.cases} counted`;
    case 'following':
      return window.windows.length > 1
        ? 'a following twenty is complete'
        : `${window.running.length} of the next twenty counted`;
    case 'draft':
      return 'the plan waits for your supervisor';
    case 'full':
      return 'the result can be read';
    case 'deciding':
      return 'the result waits for your decision';
    case 'paused':
      return 'paused';
  }
}

/** Said of a goal whose step was retired after it was set: its window can hardly fill. */
export const retiredWords = (label: string): string =>
  `${label} is retired in Settings and no longer asked for, so only files can still bring times of it. Bring it back there, or move on; what is here stays.`;
