import type { Pause } from '../model';
import { inSentence } from '../format';

/** Why no change in time may be called a result. */
export function pauseWords(pause: Pause): string {
  switch (pause.code) {
    case 'unreviewed': {
      const where = pause.timed ? '' : ', in an operation that was not timed';
      return `A serious event in these cases has not been reviewed yet (${pause.event}, ${stepWords(pause.step)}${where}).`;
    }
    case 'two-serious':
      return `${pause.count} serious events in these cases are tied to this step or one after it (${pause.steps.map(stepWords).join(', ')}).`;
    case 'monitor':
      return 'Serious events are more frequent than the line set beforehand, and no review has followed yet.';
    case 'protected-part': {
      const { part, start, window } = pause;
      return `The ${inSentence(part)} was seen in ${window.seen} of ${window.looked} cases; before, in ${start.seen} of ${start.looked}.`;
    }
    case 'as-read':
      return pause.sentence;
  }
}

const stepWords = (label: string | null) => (label === null ? 'step not known' : inSentence(label));
