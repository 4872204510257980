import { cardsFor, type CardBase, type EyeCard, type Rehearsal } from '../../rules/cards';
import type { Guidance } from '../../rules/types';

export type CardRow = { id: string; title: string; href: string };

/** The eye cards and rehearsals of a procedure, as the library lists them. */
export function cardRows(
  cards: { eyes: readonly EyeCard[]; rehearsals: readonly Rehearsal[] },
  procedureId: string,
): { eyes: CardRow[]; rehearsals: CardRow[] } {
  const rows = (of: readonly CardBase[], room: string) =>
    cardsFor(of, procedureId).map(({ id, title }) => ({ id, title, href: `/checkpoints/${room}/${id}` }));
  return { eyes: rows(cards.eyes, 'eyes'), rehearsals: rows(cards.rehearsals, 'rehearsals') };
}

/** The checkpoints a card sets aside, in the order of its list, each with the page it stands on. */
export function setAside(
  { overrides }: Pick<EyeCard, 'overrides'>,
  guidance: readonly Guidance[],
): { id: string; look: string; page: string; href: string }[] {
  return overrides.flatMap((id) =>
    guidance.flatMap((page) =>
      page.checkpoints
        .filter((checkpoint) => checkpoint.id === id)
        .map(({ look }) => ({
          id,
          look,
          page: page.title,
          href: `/checkpoints/${page.procedureId}/${page.step}#${id}`,
        })),
    ),
  );
}
