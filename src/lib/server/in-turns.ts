import { setImmediate } from 'node:timers/promises';
import { inSlices, type Slices, type Work } from '../turns';

/** Between two slices every waiting request gets its turn. */
export const othersMeanwhile = { pause: () => setImmediate() } satisfies Slices;

/** Long work, with other requests answered meanwhile. */
export const inTurns = <Answer>(work: Work<Answer>): Promise<Answer> => inSlices(work, othersMeanwhile);
