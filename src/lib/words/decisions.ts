import type { Decision } from '../model';

/** What can be decided of a goal, as it is offered. */
export const DECISIONS: Record<Decision['kind'], { label: string; hint: string }> = {
  keep: { label: 'Keep it', hint: 'The goal goes on; the following twenties show whether it lasts.' },
  'second-look': {
    label: 'A second look, at forty',
    hint: 'Twenty more cases are added once, and judged more strictly because there was a first look.',
  },
  'change-checkpoints': {
    label: 'Change the checkpoints',
    hint: 'This goal closes; a new plan on the same step opens.',
  },
  'move-on': { label: 'Move on', hint: 'This goal closes. What it showed stays here.' },
  pause: { label: 'Pause', hint: 'For safety, or because something else comes first. Nothing is lost.' },
  resume: { label: 'Go on', hint: 'The goal runs again.' },
  'go-on': { label: 'Go on with times', hint: 'The event is written down, and the goal stays as it is.' },
  'to-checkpoints': {
    label: 'Switch to checkpoints',
    hint: 'The goal goes on without a time: what you did is its result. This cannot be turned back.',
  },
};
