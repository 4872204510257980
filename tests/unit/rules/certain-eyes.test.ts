import { describe, expect, it } from 'vitest';
import { auditOf, pairOf } from '../../../src/lib/audit';
import { certainEyesOf, suggestionOf } from '../../../src/lib/rules';
import { median } from '../../../src/lib/statistics';
import { suggestionWords } from '../../../src/lib/words';
import { smallPupils, twelveLists, withPupils } from '../audit/small-pupils';
import { noEvents } from './made-up-audit';

const audited = (cases = smallPupils()) =>
  auditOf({ cases, lists: twelveLists, procedure: withPupils, references: [], seed: 1, resamples: 100 });

describe('certain eyes', () => {
  it('are suggested where a step takes far longer in them than anything else differs, with numbers that can be counted', () => {
    const cases = smallPupils();
    const audit = audited(cases);
    const suggestion = suggestionOf(audit, noEvents);
    expect(suggestion).toMatchObject({ kind: 'eyes', steps: ['capsulorhexis'], eyes: { n: 48, withIt: { n: 17 } } });
    const eyes = suggestion.eyes!;
    const times = (small: boolean) =>
      cases
        .filter(({ facts }) => facts['small-pupil'] === small)
        .map(({ stretches }) => stretches.find(({ stepId }) => stepId === 'capsulorhexis')!.seconds);
    expect(eyes.withIt.median).toBe(median(times(true)));
    expect(eyes.without.median).toBe(median(times(false)));
    expect(eyes.ratio).toBeGreaterThan(2);
    expect(eyes.seconds).toBeCloseTo((17 / 48) * eyes.without.median * (eyes.beyond - 1), 9);
    expect(eyes.because).toEqual([
      { code: 'certain-eyes', numbers: expect.objectContaining({ n_with: 17, n: 48 }) as object },
    ]);
    const words = suggestionWords(audit, suggestion);
    expect(words.head).toMatch(/^Suggested: capsulorhexis in certain eyes/);
    expect(words.sentences.join(' ')).toContain('17 of 48 cases');
    expect(words.sentences.join(' ')).toContain('Longer is expected in these eyes');
  });

  it('are none where the same eyes make every step as much longer, in most records', () => {
    const named = Array.from({ length: 20 }, (_, seed) =>
      certainEyesOf(audited(smallPupils(1.16, { seed: seed + 1, everywhere: true }))),
    ).filter(Boolean);
    expect(named.length).toBeLessThanOrEqual(4);
  });

  it('give a pair within them, the shorter below their own recorded median', () => {
    const cases = smallPupils();
    const found = certainEyesOf(audited(cases))!;
    const pair = pairOf({ cases, lists: twelveLists, procedure: withPupils, stepId: found.stepId, within: found });
    if (pair.kind === 'cannot') throw new Error(pair.why.code);
    const small = (id: string) => cases.find((each) => each.id === id)!.facts['small-pupil'];
    expect([small(pair.shorter.caseId), small(pair.longer.caseId)]).toEqual([true, true]);
    expect(pair.shorter.seconds).toBeLessThan(found.withIt.median);
    expect(pair.longer.seconds).toBeGreaterThan(pair.shorter.seconds);
  });
});
