import { fromRangeOfRatios, inSentence, lessOrMore, prose, rangeOfRatios } from '../format';
import type { Outcome } from '../model';

/** What a goal on steadiness was judged by: how much the step varies against the rest, not how long it takes. */
export function spreadSentence({ spread, kind }: Outcome, step: string): string[] {
  if (!spread) return [];
  const [ratio, low, high] = [spread.estimate, spread.low, spread.high].map(Math.exp) as [number, number, number];
  const against = 'from case to case, against the rest of the same operations';
  return [
    kind === 'steadier'
      ? `${step} varied about ${lessOrMore(ratio)} ${against} (${rangeOfRatios(low, high)}).`
      : `How much ${inSentence(step)} varies ${against}: the likeliest figure is ${lessOrMore(ratio)}, but anything ${fromRangeOfRatios(low, high)} fits.`,
    `${spread.nWindow} cases against ${spread.nBaseline} baseline cases.`,
  ];
}

/**
 * The ranges as they were timed; they include the case mix too, so that they may widen where the step itself is
 * steadier.
 */
export function rangesSentence({ rangeBaseline, rangeWindow, kind }: Outcome): string[] {
  if (!rangeBaseline || !rangeWindow) return [];
  const range = ([low, high]: readonly [number, number]) => `between ${prose(low)} and ${prose(high)}`;
  const narrower = rangeWindow[1] / rangeWindow[0] < rangeBaseline[1] / rangeBaseline[0];
  if (kind === 'steadier' && !narrower)
    return ['As they were timed, two thirds of cases do not lie closer together: the whole operation varied more.'];
  return [`Two thirds of cases now fall ${range(rangeWindow)}; before, ${range(rangeBaseline)}.`];
}
