import type { Effect } from '../model';
import type { ChangeInput } from './change';
import { judgeTime } from './judge-time';

/** A step next to the practised one that took longer against its own rest. */
export type LongerNeighbour = { step: number; effect: Effect };

/**
 * Beside a step found shorter: does the one before or after it take clearly longer, by the rule of *longer*? Then the
 * time may have moved over the boundary between their clocks. The practised step is no part of the neighbour's rest.
 * @param neighbours indices of the steps next to it
 * @param othersOf which steps may stand for the rest of a given one
 */
export function longerNeighbours(
  input: ChangeInput,
  neighbours: readonly number[],
  othersOf: (step: number) => readonly number[],
): LongerNeighbour[] {
  return neighbours.flatMap((step) => {
    const others = othersOf(step).filter((other) => other !== input.stepIndex);
    const { kind, against } = judgeTime(
      { ...input, stepIndex: step, others },
      { selectionAllowance: 0, steer: null, look: 'first' },
    );
    return kind === 'longer' && against ? [{ step, effect: against }] : [];
  });
}
