import { describe, expect, it } from 'vitest';
import { notUsedTogether } from '../../../src/lib/words/not-used';

describe('facts that were not adjusted for', () => {
  it('become one sentence, each with its reason', () => {
    expect(
      notUsedTogether([
        'Nucleus is not used: entered in only 26 of 50 cases.',
        'Lists are not known.',
        'Toric is not used: the same in all cases.',
        'Pupil is not used: entered in only 26 of 50 cases.',
      ]),
    ).toEqual([
      'Lists are not known.',
      'Not adjusted for: nucleus and pupil (entered in only 26 of 50 cases); toric (the same in all cases).',
    ]);
  });

  it('say nothing where every fact was used', () => {
    expect(notUsedTogether([])).toEqual([]);
    expect(notUsedTogether(['Lists are not known.'])).toEqual(['Lists are not known.']);
  });
});
