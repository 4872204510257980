import { capital } from '../../format';
import type { Goal } from '../../model';
import type { Guidance } from '../../rules/types';

export type EyesClosed = {
  aim: string;
  /** What to see, one after the other: those of the running goal, else the first three of the page. */
  see: readonly string[];
  /** One thing that goes wrong, and the answer to it. */
  sign: string;
  answer: string;
};

const CHECKPOINTS = 3;

/**
 * A script for rehearsing a step in the mind: the aim, up to three checkpoints, one stop sign and its answer. In words
 * only, at a desk. `null` where the page has no stop sign with an answer.
 * @param turn which of the page's stop signs, so that another comes each week
 */
export function eyesClosed(
  page: Pick<Guidance, 'aim' | 'checkpoints' | 'stop'>,
  goal: Pick<Goal, 'checkpoints'> | null,
  turn: number,
): EyesClosed | null {
  const answered = page.stop.flatMap((line) => {
    const [sign, ...rest] = line.split(/(?<=[.!?])\s+(?=[A-Z])/);
    return sign && rest.length > 0 ? [{ sign, answer: rest.join(' ') }] : [];
  });
  const chosen = answered[turn % answered.length];
  const own = goal?.checkpoints ?? [];
  return chosen
    ? {
        aim: page.aim,
        see: (own.length > 0 ? own : page.checkpoints).slice(0, CHECKPOINTS).map(({ look }) => look),
        sign: capital(chosen.sign),
        answer: chosen.answer,
      }
    : null;
}
