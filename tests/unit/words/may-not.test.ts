import { describe, expect, it } from 'vitest';
import { eraseRefusedWords, leaveOutRefusedWords } from '../../../src/lib/words/may-not';

describe('what may not be done with a case', () => {
  it('is said with why, and with what to do where something can be done', () => {
    expect(leaveOutRefusedWords('window-full')).toContain('is full');
    for (const refusal of ['event-of-step', 'event-needs-a-reason'] as const)
      expect(leaveOutRefusedWords(refusal)).toContain('cannot be left out because of an event');
    expect(eraseRefusedWords({ code: 'review-first', case: 'C7' })).toBe(
      'A serious event of case C7 waits for your review. Write the review first; then it can be erased. Nothing was erased.',
    );
    expect(eraseRefusedWords({ code: 'result-first', case: 'C7' })).toContain(
      'Read the result first, or close the goal',
    );
  });
});
