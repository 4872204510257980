import type { Event, Procedure } from '../model';
import { namedEvents } from './events-of-goal';

/** What was written down at the step of a running goal since it was set, or since it was last decided on. */
export const eventQuestionWords = (events: readonly Event[], procedure: Procedure): string =>
  `Written down at this step since the goal was set: ${namedEvents(events, procedure).join(' ')}`;

/** What is asked, on Now and on After twenty. */
export const EVENT_ASKS = 'Decide whether to go on with times, to switch to checkpoints, or to pause.';
