import { reflectionSchema } from '../../../model';
import { checked, found } from '../checked';
import { StaleVersionError, type Store } from '../port';
import { allOf, findIn, freshIds, put } from '../sharded';
import type { Shelf } from '../shelf';

export const reflectionVerbs = (shelf: Shelf): Pick<Store, 'reflections' | 'saveReflection' | 'updateReflection'> => ({
  reflections: async () => allOf(shelf, 'reflections'),
  saveReflection: (reflection) =>
    shelf.change((draft) => {
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
});
