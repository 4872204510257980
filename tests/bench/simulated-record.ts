import type { Case, FactValue, Procedure, ReferenceSet } from '../../src/lib/model';
import { randomStream, type RandomStream } from '../../src/lib/statistics';
import { case_, length, procedure, step } from '../made-up/cases';

/** An invented record with known truth: what every step, case and list adds to the log of a time. */
export type World = {
  cases: number;
  /** Median seconds of each step. */
  usual: readonly number[];
  logSd?: number | readonly number[];
  caseSd?: number;
  listSd?: number;
  outliers?: number;
  listSize?: number;
  missing?: number;
  /** What facts a case has, and what it adds to each step's log time. */
  eye?: (
    stream: RandomStream,
    place: number,
  ) => { facts: Record<string, FactValue>; effect: (stepPlace: number) => number };
};

export const nineEqualSteps = (cases: number): World => ({ cases, usual: Array.from({ length: 9 }, () => 60) });

export const stepIds = (count: number) => Array.from({ length: count }, (_, place) => `s${place + 1}`);

export const plainProcedure = (count: number): Procedure => procedure(stepIds(count).map((id) => step(id)));

/** Cases of a world; the noise of the published simulations unless said: log-SD 0.22, case 0.10, list 0.06, 5 % outliers, lists of 5. */
export function recordOf(world: World, seed: number): Case[] {
  const { cases, usual, logSd = 0.22, caseSd = 0.1, listSd = 0.06, outliers = 0.05, listSize = 5, missing = 0 } = world;
  const stream = randomStream(seed, 77);
  let listEffect = 0;
  return Array.from({ length: cases }, (_, place) => {
    if (place % listSize === 0) listEffect = listSd * stream.normal();
    const caseEffect = caseSd * stream.normal();
    const eye = world.eye?.(stream, place);
    const stretches = usual.flatMap((seconds, stepPlace) => {
      const sd = typeof logSd === 'number' ? logSd : (logSd[stepPlace] ?? 0.22);
      const own = sd * stream.normal();
      // An outlying time is long, not short: something happened.
      const odd = stream.uniform() < outliers ? 0.4 + 0.6 * stream.uniform() : 0;
      const log = listEffect + caseEffect + own + odd + (eye?.effect(stepPlace) ?? 0);
      return stream.uniform() < missing ? [] : [length(`s${stepPlace + 1}`, seconds * Math.exp(log))];
    });
    return case_(place + 1, stretches, { listId: `list-${Math.floor(place / listSize) + 1}`, facts: eye?.facts ?? {} });
  });
}

/** The same world as a reference set of one reader, lists of five. */
export function referenceOf(world: World, seed: number, readers = 1): ReferenceSet {
  return {
    id: 'reference-1',
    label: 'made up',
    procedureId: 'made-up',
    agreedAt: '2026-01-01T10:00:00Z',
    invented: true,
    cases: recordOf(world, seed).map((each, place) => ({
      reader: `R${(place % readers) + 1}`,
      list: Math.floor(place / (world.listSize ?? 5)),
      facts: each.facts,
      stepSeconds: Object.fromEntries(each.stretches.map(({ stepId, seconds }) => [stepId ?? '', seconds])),
    })),
  };
}
