import { describe, expect, it } from 'vitest';
import { startCaveatWords } from '../../../src/lib/words/caveats';
import { notUsedTogether } from '../../../src/lib/words/not-used';

const together = (caveats: Parameters<typeof startCaveatWords>[0][]) => notUsedTogether(caveats, startCaveatWords);

describe('facts that were not adjusted for', () => {
  it('become one sentence, each with its reason', () => {
    expect(
      together([
        { code: 'few-entered', fact: 'Nucleus', entered: 26, of: 50 },
        { code: 'lists-unknown' },
        { code: 'all-the-same', fact: 'Toric' },
        { code: 'few-entered', fact: 'Pupil', entered: 26, of: 50 },
      ]),
    ).toEqual([
      'Lists are not known, so neighbouring cases are treated as one list.',
      'Not adjusted for: nucleus and pupil (entered in only 26 of 50 cases); toric (the same in all cases).',
    ]);
  });

  it('say nothing where every fact was used, and of one used in part only by itself', () => {
    expect(together([])).toEqual([]);
    expect(together([{ code: 'partly-tied', fact: 'Nucleus' }])).toEqual([
      'Nucleus is only partly used: it is tied to facts already used.',
    ]);
  });
});
