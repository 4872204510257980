import { z } from 'zod';
import { instant, reflectionSchema } from '../../../model';
import { checked, found } from '../checked';
import { StaleVersionError, StorageError, type Store } from '../port';
import { readable } from '../readable-part';
import { allOf, drop, findIn, freshIds, put } from '../sharded';
import type { Draft, Reader, Shelf } from '../shelf';
import { dropDrafts } from './drafts';

const REMOVED = 'removed-reflection';
const removedSchema = z.strictObject({ at: instant, reflection: reflectionSchema });
const aDay = 24 * 60 * 60 * 1000;

const isOver = (at: string, now: string): boolean => Date.parse(now) - Date.parse(at) > aDay;

function removedIn(reader: Reader): z.infer<typeof removedSchema> | null {
  const text = reader.read('drafts')?.values[REMOVED];
  const read = text === undefined ? null : removedSchema.safeParse(JSON.parse(text));
  return read?.success ? read.data : null;
}

/** A text that was deleted is not left lying about for longer than it can be put back. */
function forgetRemoved(draft: Draft, now: string): void {
  const removed = removedIn(draft);
  if (removed && isOver(removed.at, now)) dropDrafts(draft, (key) => key === REMOVED);
}

type Verbs = Pick<
  Store,
  'reflections' | 'saveReflection' | 'updateReflection' | 'removeReflection' | 'removedReflection' | 'putBackReflection'
>;

export const reflectionVerbs = (shelf: Shelf): Verbs => ({
  reflections: async () => allOf(shelf, 'reflections'),
  saveReflection: (reflection) =>
    shelf.change((draft) => {
      forgetRemoved(draft, reflection.at);
      const id = freshIds(draft, 'reflections').next().value;
      const record = checked(reflectionSchema, { ...reflection, id, version: 1 }, 'The reflection');
      put(draft, 'reflections', [record]);
      return record;
    }),
  updateReflection: (changed) =>
    shelf.change((draft) => {
      const stored = found(findIn(draft, 'reflections', changed.id), 'The reflection');
      if (stored.version !== changed.version) throw new StaleVersionError('This reflection');
      const next = { ...changed, invented: stored.invented, version: stored.version + 1 };
      const record = checked(reflectionSchema, next, 'The reflection');
      put(draft, 'reflections', [record]);
      return record;
    }),
  removeReflection: (id, version, now) =>
    shelf.change((draft) => {
      const reflection = found(findIn(draft, 'reflections', id), 'The reflection');
      if (reflection.version !== version) throw new StaleVersionError('This reflection');
      drop(draft, 'reflections', [id]);
      dropDrafts(draft, (key) => key === REMOVED || key === `reflection-change:${id}`);
      const copy = JSON.stringify({ at: now, reflection } satisfies z.infer<typeof removedSchema>);
      draft.write('drafts', { values: { ...draft.read('drafts')?.values, [REMOVED]: copy } });
    }),
  removedReflection: async (now) =>
    readable(() => {
      const removed = removedIn(shelf);
      return removed && !isOver(removed.at, now) ? removed.reflection : null;
    }, null),
  putBackReflection: (id, now) =>
    shelf.change((draft) => {
      const removed = removedIn(draft);
      if (!removed || removed.reflection.id !== id || isOver(removed.at, now))
        throw new StorageError('not-found', 'This note is no longer kept, so it cannot be put back.');
      const record = { ...removed.reflection, version: removed.reflection.version + 1 };
      put(draft, 'reflections', [record]);
      dropDrafts(draft, (key) => key === REMOVED);
      return record;
    }),
});
