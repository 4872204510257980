import type { SurgeonRecord } from '../model';
import { proceduresOf } from './procedures';
import type { Store } from './storage/port';

/**
 * The whole record, read at once; the store keeps it in memory. A part that cannot be read is an error for whoever looks
 * at it, and for nobody else: one damaged file does not close the rooms that do without it.
 */
export async function readRecord(store: Store): Promise<SurgeonRecord> {
  const asked: { [Part in keyof SurgeonRecord]: Promise<SurgeonRecord[Part]> } = {
    profile: store.profile(),
    procedures: proceduresOf(store),
    lists: store.lists(),
    cases: store.cases(),
    goals: store.goals(),
    results: store.results(),
    reflections: store.reflections(),
    references: store.references(),
  };
  const record = {};
  await Promise.allSettled(Object.values(asked));
  for (const [part, answer] of Object.entries(asked))
    Object.defineProperty(record, part, { enumerable: true, ...(await held(answer)) });
  return record as SurgeonRecord;
}

const held = (answer: Promise<unknown>): Promise<PropertyDescriptor> =>
  answer.then(
    (value) => ({ value }),
    (why: unknown) => ({
      get() {
        throw why;
      },
    }),
  );
