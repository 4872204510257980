import { counted } from '../format';
import type { Lasting } from '../model';
import { LASTING_HEAD } from './lasting';
import { sinceFigure } from './since-read';

/** When it was read (`when` with its preposition: "on 1 September 2026", "in September 2026"), and what today's data would give where that prints otherwise; `now`: `null` where nothing can be said. */
export function lastedSinceWords(read: Lasting, now: Lasting | null, when: string): string {
  if (!now) return `Read ${when}; some of what it rests on has changed since, and it cannot be worked out today.`;
  const [then, today] = [sinceFigure(read.effect), sinceFigure(now.effect)];
  if (then === today && read.kind === now.kind) return `Read ${when}.`;
  const kind = read.kind === now.kind ? '' : `; that would be: ${LASTING_HEAD[now.kind]}`;
  return `Read ${when} as ${then}. Something it rests on has changed since: today's data would give ${today}${kind}.`;
}

/** Before the answer of a following twenty is read. `waits`: cases whose checkpoints wait for an answer, in a sentence. */
export const lastedReadyWords = (twenties: number, waits: string): string =>
  `${twenties === 1 ? 'A following twenty is' : `${twenties} following twenties are`} complete. Whether it lasted is stored when you read it, once, and shown unchanged from then on.${waits}`;

/** Why the answer of a complete following twenty cannot be read yet. */
export const lastingWaitsWords = (waits: { kind: 'review' } | { kind: 'hidden'; cases: number }): string =>
  `A following twenty is complete. ${
    waits.kind === 'review'
      ? 'A serious event in it waits for its review'
      : `The times of ${counted(waits.cases, 'case')} in it are hidden while the window of another goal runs`
  }: whether it lasted can be read after that.`;
