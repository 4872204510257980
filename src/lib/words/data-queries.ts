import type { DataQueryReason } from '../audit';
import { inSentence } from '../format';

/** What is asked about a time or a case that is kept and counted. */
export function dataQueryWords(why: DataQueryReason): string {
  switch (why.code) {
    case 'far-from-own':
      return `${Math.round(why.seconds)} s is far ${why.far} than you usually take for ${inSentence(why.step)}. Is the time right?`;
    case 'far-from-any':
      return `${Math.round(why.seconds)} s is far ${why.far} than any step usually takes. Is the time right?`;
    case 'overlap': {
      const [first, second] = why.steps;
      return `Stretches of ${inSentence(first)} and ${inSentence(second)} overlap by ${Math.round(why.seconds)} s. Which of the two was going on?`;
    }
    case 'few-steps':
      return `Only ${why.timed} of the ${why.of} steps you usually time ${why.timed === 1 ? 'is' : 'are'} here. Is the recording complete?`;
    case 'unit':
      return `Half of the ${why.times} step times here are ${Number(why.median.toFixed(2))} s or less. Are they in minutes (0.67 for 40 s)? Then say so in the headings, "capsulorhexis (min)", and bring the file in again.`;
  }
}
