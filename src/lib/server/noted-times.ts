import { z } from 'zod';
import { keptText } from '../rooms/forms/kept-text';
import type { Store } from './storage/port';

/** What was said once about times typed list by list; among the drafts, because nothing rests on it. */
const KEY = 'noted-times';
const schema = z.object({ figures: z.enum(['clock', 'seconds']).nullable(), steps: z.array(z.string()) });
export type NotedTimes = z.infer<typeof schema>;

export const notedTimes = async (store: Store): Promise<NotedTimes> =>
  keptText(schema, await store.draft(KEY)) ?? { figures: null, steps: [] };

export const keepNotedTimes = (store: Store, said: NotedTimes): Promise<void> =>
  store.saveDraft(KEY, JSON.stringify(said));
