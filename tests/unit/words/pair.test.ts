import { describe, expect, it } from 'vitest';
import { pairCannotWords, pairCaveatWords, pairReasonsWords } from '../../../src/lib/words/pair';

describe('the words of a pair', () => {
  const times = { sameEyes: false, adjusted: false };

  it('say why a case is one of the two, and of which times', () => {
    expect(
      pairReasonsWords([
        { code: 'shorter-part', times },
        { code: 'not-returned-to' },
        { code: 'no-event' },
        { code: 'protected-parts-seen' },
      ]),
    ).toBe(
      'in the shorter part of your own times, not the very shortest, not returned to, no event and protected parts seen',
    );
    expect(pairReasonsWords([{ code: 'longer-quarter', times: { sameEyes: true, adjusted: true } }])).toBe(
      'among the longer quarter of your own times in these eyes, adjusted for the eye, not the very longest',
    );
  });

  it('say what is not known, and why there is none', () => {
    expect(pairCaveatWords({ code: 'events-not-answered', of: 'C31' })).toBe('Events were not answered in C31.');
    expect(pairCaveatWords({ code: 'events-not-answered', of: null })).toBe('Events were not answered in either case.');
    expect(pairCannotWords({ code: 'too-few-cases', needed: 12, cases: 11 })).toBe(
      'A pair needs 12 cases with this step that were not noted by hand; there are 11.',
    );
    expect(pairCannotWords({ code: 'none-undisturbed', times: { sameEyes: false, adjusted: true } })).toBe(
      'In the shorter part of your own times, adjusted for the eye, there is no case without an event in which the step was not returned to.',
    );
  });
});
