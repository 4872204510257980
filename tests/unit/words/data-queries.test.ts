import { describe, expect, it } from 'vitest';
import type { DataQueryReason } from '../../../src/lib/audit';
import { dataQueryWords } from '../../../src/lib/words/data-queries';

describe('what is asked about', () => {
  it.each<[DataQueryReason, string]>([
    [
      { code: 'far-from-own', seconds: 899.6, far: 'longer', step: 'Cortex aspiration' },
      '900 s is far longer than you usually take for cortex aspiration. Is the time right?',
    ],
    [
      { code: 'far-from-any', seconds: 2400, far: 'longer' },
      '2400 s is far longer than any step usually takes. Is the time right?',
    ],
    [
      { code: 'overlap', steps: ['A', 'OVD'], seconds: 10 },
      'Stretches of A and OVD overlap by 10 s. Which of the two was going on?',
    ],
    [
      { code: 'few-steps', timed: 1, of: 4 },
      'Only 1 of the 4 steps you usually time is here. Is the recording complete?',
    ],
    [
      { code: 'unit', times: 60, median: 0.6666 },
      'Half of the 60 step times here are 0.67 s or less. Are they in minutes (0.67 for 40 s)? Then say so in the headings, "capsulorhexis (min)", and bring the file in again.',
    ],
  ])('%o', (why, sentence) => expect(dataQueryWords(why)).toBe(sentence));
});
