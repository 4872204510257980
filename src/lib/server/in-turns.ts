import { setImmediate } from 'node:timers/promises';
import { inSlices, type Slices, type Work } from '../turns';

/** Between two slices every request that waits has its turn. */
export const othersMeanwhile = { pause: () => setImmediate() } satisfies Slices;

/** Long work, with others answered meanwhile. */
export const inTurns = <Answer>(work: Work<Answer>): Promise<Answer> => inSlices(work, othersMeanwhile);
