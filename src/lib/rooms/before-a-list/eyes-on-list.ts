import type { Procedure, Goal } from '../../model';
import { cardsFor, type EyeCard } from '../../rules/cards';

/** The eye cards that can be asked for: those of the procedures of running goals, else of the surgeon's own. */
export function cardsToAsk(cards: readonly EyeCard[], goals: readonly Goal[], procedureId: Procedure['id']): EyeCard[] {
  const running = goals.filter(({ state }) => state === 'running').map((goal) => goal.procedureId);
  const ids = running.length > 0 ? running : [procedureId];
  return cards.filter((card) => ids.some((id) => cardsFor([card], id).length > 0));
}

/** What is added to a checkpoint that does not apply to an eye on the list; else empty. */
export function setAsideWords(checkpointId: string, onList: readonly EyeCard[]): string {
  const against = onList.filter(({ overrides }) => overrides.includes(checkpointId)).map(({ title }) => title);
  return against.length === 0 ? '' : ` (Does not apply in: ${against.join(', ')}. The card stands in its place.)`;
}
