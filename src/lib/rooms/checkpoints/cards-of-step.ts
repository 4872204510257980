import { cardsFor, type EyeCard, type Rehearsal } from '../../rules/cards';
import type { Guidance } from '../../rules/types';
import { cardRows, type CardRow } from './cards-view';

/** The cards for the kinds of eye, and the rehearsals for the events, that the checkpoints of a page name. */
export function cardsOfStep(
  page: Pick<Guidance, 'procedureId' | 'checkpoints'>,
  cards: { eyes: readonly EyeCard[]; rehearsals: readonly Rehearsal[] },
): { eyes: CardRow[]; rehearsals: CardRow[] } {
  const named = new Set<string>(page.checkpoints.flatMap(({ fits, notFor }) => [...fits, ...notFor]));
  return cardRows(
    {
      eyes: cardsFor(cards.eyes, page.procedureId).filter(({ eyes }) => eyes.some((eye) => named.has(eye))),
      rehearsals: cardsFor(cards.rehearsals, page.procedureId).filter(({ events }) =>
        events.some((event) => named.has(`event:${event}`)),
      ),
    },
    page.procedureId,
  );
}
