import { roundsToOne } from '../format';
import type { Pattern } from './types';

/**
 * The change of a step over time, where it is clear: the one place that says so, for the step's page and for the reasons of a
 * plan. A trend that would be printed as "1 times as long" is none.
 */
export const clearTrend = (patterns: readonly Pattern[], stepId: string): Pattern | null =>
  patterns.find(
    (each) => each.stepId === stepId && each.kind === 'over-time' && each.shown && !roundsToOne(each.ratio),
  ) ?? null;
