import type { NewCase } from '../../model';
import type { Steps } from '../../turns';
import { weights } from '../weights';
import type { Finished } from './finish';
import { listsOf } from './lists';

/** A case of another surgeon, for the reference set. `list` only groups. */
export type ReferenceDraft = { reader: `R${number}`; list: number | null; case: NewCase };

/** Cases of other surgeons, for the reference set: nothing of them goes in but times and facts. */
export function* referencesOf(finished: readonly Finished[]): Steps<ReferenceDraft[]> {
  const others = finished.filter(({ draft }) => draft.role !== 'me');
  const { keys, lists } = yield* listsOf(
    others.map((one) => ({ ...one, list: one.list && `${one.draft.role} ${one.list}` })),
  );
  const numbers = new Map(lists.map(({ key }, index) => [key, index + 1]));
  const references: ReferenceDraft[] = [];
  for (const [index, { draft, case: one }] of others.entries()) {
    yield weights.row;
    references.push({
      reader: draft.role === 'me' ? 'R1' : draft.role,
      list: numbers.get(keys[index] ?? '') ?? null,
      case: {
        ...one,
        code: `reference ${index + 1}`,
        position: null,
        events: null,
        protectedSeen: {},
        energy: null,
        list: null,
        sequence: index + 1,
        orderKnown: false,
      },
    });
  }
  return references;
}
