import { capital, fromRangeOfRatios, inSentence, lessOrMore, rangeOfRatios } from '../format';
import type { Lasting } from '../model';

/** Of the twenties after the window; further ones are rare enough for a figure. */
const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth'];

/** Whether it lasted, for one following twenty. */
export function lastingWords(lasting: Lasting, stepLabel: string): { head: string; sentence: string } {
  const [ratio, low, high] = [lasting.effect.estimate, lasting.effect.low, lasting.effect.high].map(Math.exp) as [
    number,
    number,
    number,
  ];
  const step = inSentence(stepLabel);
  const which =
    lasting.nth === 1
      ? 'In the following twenty'
      : `In the ${ORDINALS[lasting.nth] ?? `${lasting.nth}th`} twenty after it`;
  const first = `In the first window it was ${lessOrMore(Math.exp(lasting.firstEstimate))}.`;
  switch (lasting.kind) {
    case 'lasted':
      return {
        head: LASTING_HEAD[lasting.kind],
        sentence: `${which}, ${step} stayed below its baseline: about ${lessOrMore(ratio)} (${rangeOfRatios(low, high)}). ${first}`,
      };
    case 'faded':
      return {
        head: LASTING_HEAD[lasting.kind],
        sentence: `${which} it was back near its baseline (${lessOrMore(ratio)}; ${rangeOfRatios(low, high)}). This is common. Which checkpoint has dropped out?`,
      };
    case 'partly':
      return {
        head: LASTING_HEAD[lasting.kind],
        sentence: `${which} about half of it was left (${lessOrMore(ratio)}; ${rangeOfRatios(low, high)}). ${first}`,
      };
    default:
      return {
        head: LASTING_HEAD[lasting.kind],
        sentence: `${capital(lessOrMore(ratio))}, but anything ${fromRangeOfRatios(low, high)} fits. The next twenty will say more.`,
      };
  }
}

export const LASTING_HEAD: Record<Lasting['kind'], string> = {
  lasted: 'Lasted',
  faded: 'Faded',
  partly: 'Partly',
  'not-clear': 'Not clear yet',
};
