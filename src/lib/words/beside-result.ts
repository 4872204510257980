import { inSentence, lessOrMore, rangeOfRatios } from '../format';
import type { Outcome } from '../model';
import { aimedWords } from './aimed';
import { resultCaveatWords } from './caveats';
import { RESULT_HEAD } from './result-heads';

/** What stands beside a result: prior trend, neighbours, experience, second look, cases left out, hands, caveats. */
export function besideWords(outcome: Outcome): string[] {
  const beside: string[] = [];
  if (outcome.notes.includes('prior-trend') && outcome.priorTrend !== null)
    beside.push(
      `This was already under way: going on as before would have given about ${lessOrMore(Math.exp(outcome.priorTrend))}${outcome.priorTrendRange ? ` (${rangeOfRatios(Math.exp(outcome.priorTrendRange[0]), Math.exp(outcome.priorTrendRange[1]))})` : ''}.`,
    );
  for (const { label, effect } of outcome.neighbours ?? []) {
    const [ratio, low, high] = [effect.rawEstimate, effect.rawLow, effect.rawHigh].map(Math.exp) as [
      number,
      number,
      number,
    ];
    beside.push(
      `The step next to it, ${inSentence(label)}, took about ${lessOrMore(ratio)} time than its rest would lead you to expect (${rangeOfRatios(low, high)}). Does the clock between the two still stop where it used to? Time moved from one step into the next looks just like this.`,
    );
  }
  if (outcome.notes.includes('experience')) beside.push('Some of this may come with experience.');
  if (outcome.notes.includes('second-look'))
    beside.push('Second look, at forty. Because the first look came at twenty, this one is judged more strictly.');
  if (outcome.leftOutSeen > 0)
    beside.push(
      `${outcome.leftOutSeen === 1 ? 'One case was' : `${outcome.leftOutSeen} cases were`} left out after ${outcome.leftOutSeen === 1 ? 'its' : 'their'} times were seen.` +
        (outcome.kindWithLeftOut && outcome.kindWithLeftOut !== outcome.kind
          ? ` With them in, the result would be: ${RESULT_HEAD[outcome.kindWithLeftOut]}. It depends on the cases left out.`
          : ' With them in, the result is the same.'),
    );
  if (outcome.notes.includes('lists-unknown'))
    beside.push('Lists are not known, so neighbouring cases are treated as one list.');
  if (outcome.notes.includes('shared-hands'))
    beside.push('In some of these cases someone else did part of the operation; only your own steps count.');
  return [...beside, ...(outcome.aimed ? aimedWords(outcome.aimed) : []), ...outcome.caveats.map(resultCaveatWords)];
}
