import { describe, expect, it } from 'vitest';
import { noResultWords, smallReferenceWords, type NoResult } from '../../../src/lib/words/assessment';

describe('what the command line says beside the words of the rooms', () => {
  it.each<[NoResult, string]>([
    [{ code: 'no-such-case', case: 'C900' }, 'No case of this file has the code "C900".'],
    [
      { code: 'no-such-eyes', fact: 'pupil', level: 'tiny' },
      'This procedure has no eyes "pupil=tiny" a goal could be aimed at.',
    ],
    [{ code: 'order-unknown' }, 'The order of the cases in time is not known.'],
    [{ code: 'no-step' }, 'The cases before it suggest no step.'],
    [
      { code: 'cannot-start', why: { code: 'few-cases', counted: 12, needed: 20, eyes: null, since: false } },
      '12 cases count for this step; a goal needs 20. 8 more will do.',
    ],
  ])('%o', (why, sentence) => expect(noResultWords(why)).toBe(sentence));

  it('a small reference set is counted', () => {
    expect(smallReferenceWords(1, { cases: 20, lists: 4 })).toBe(
      'The reference set holds 1 case: a step is compared from 20 cases on, of at least 4 lists or surgeons.',
    );
  });
});
