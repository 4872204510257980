import { describe, expect, it } from 'vitest';
import type { CannotJudge, EyeCaveat, NotANumber, Pause } from '../../../src/lib/model';
import {
  auditCaveatsWords,
  auditCaveatWords,
  cannotCompareWords,
  cannotJudgeWords,
  cannotLookBackWords,
  cannotStartWords,
  differenceCannotWords,
  eyeCaveatWords,
  notANumberWords,
  pauseWords,
  resultCaveatWords,
  shorterCannotWords,
  startCaveatWords,
} from '../../../src/lib/words';

describe('why nothing can be said', () => {
  it.each<[CannotJudge, string]>([
    [{ code: 'not-a-time-goal', measure: 'safety' }, 'This goal is about safety: it has no time.'],
    [{ code: 'few-cases' }, 'There are too few cases in one of the periods.'],
    [
      { code: 'few-rest-cases', baseline: 32, windows: [8, 9] },
      'Three other steps are timed in only 32 baseline cases and 8, 9 of the window: too few to compare with the rest of the operation.',
    ],
    [
      { code: 'few-lists', lists: 1 },
      'One of the periods comes from one list only: a good or bad list could account for the whole change. At least three are needed.',
    ],
    [{ code: 'few-cases-to-vary' }, 'There are too few cases in one of the periods to compare how much they vary.'],
    [{ code: 'too-few' }, 'There are too few cases to compare.'],
  ])('of a window: %o', (why, sentence) => expect(cannotJudgeWords(why)).toBe(sentence));

  it.each<[NotANumber, string]>([
    [
      { code: 'not-a-number', what: 'given', given: 'selection-allowance' },
      'The allowance given is not a number, so nothing can be said.',
    ],
    [
      { code: 'not-a-number', what: 'case', case: 'C12' },
      'In case C12 something given as a number is not one, so nothing can be said.',
    ],
    [{ code: 'not-a-number', what: 'fact' }, 'A fact of the eye is not a number in some case.'],
  ])('where a number is none: %o', (why, sentence) => expect(notANumberWords(why)).toBe(sentence));

  it('of the start of a goal, with how many more will do', () => {
    const few = { code: 'few-cases', counted: 2, needed: 20, eyes: null, since: false } as const;
    expect(cannotStartWords(few)).toBe('2 cases count for this step; a goal needs 20. 18 more will do.');
    expect(cannotStartWords({ ...few, counted: 1, eyes: 'dense', since: true })).toBe(
      'One case counts for this step with dense; a goal on its time needs 20. 19 more will do; until then only the checkpoints can be measured. Counted from the change that an earlier goal on this step ended with.',
    );
    expect(cannotStartWords({ code: 'few-lists', lists: 2, needed: 3 })).toBe(
      'These cases come from 2 lists; at least 3 are needed, or one good or bad list could account for the whole change.',
    );
  });

  it('of two stretches, and of one step in them', () => {
    const few = { code: 'few-cases', needed: 30, listsKnown: false, earlier: 15, later: 50 } as const;
    expect(cannotLookBackWords(few)).toBe(
      '30 counted cases are needed in each, because lists are not known; there are 15 and 50.',
    );
    expect(cannotLookBackWords({ code: 'in-both', cases: 1 })).toBe(
      'One case is in both: two stretches are compared that share no case.',
    );
    expect(cannotCompareWords({ code: 'few-cases', needed: 20 })).toBe(
      'Done in fewer than 20 cases of one of the two.',
    );
  });

  it('of the difference of a step, by itself and below its median', () => {
    const few = { code: 'too-few-cases', cases: 1, needed: 5 } as const;
    expect(differenceCannotWords(few)).toBe('Cannot say yet: 1 of the 5 cases it needs.');
    expect(shorterCannotWords(few)).toBe(
      'How far your shorter cases lie below that cannot be said yet: 1 of the 5 cases it needs.',
    );
    expect(differenceCannotWords({ code: 'whole-seconds' })).toContain('too coarse');
  });
});

describe('why a result is paused', () => {
  it.each<[Pause, string]>([
    [
      { code: 'unreviewed', event: 'posterior capsule tear', step: 'Cortex', timed: true },
      'A serious event in these cases has not been reviewed yet (posterior capsule tear, cortex).',
    ],
    [
      { code: 'unreviewed', event: 'other', step: null, timed: false },
      'A serious event in these cases has not been reviewed yet (other, step not known, in an operation that was not timed).',
    ],
    [
      { code: 'two-serious', count: 2, steps: ['Cortex', 'Lens'] },
      '2 serious events in these cases are tied to this step or one after it (cortex, lens).',
    ],
    [
      { code: 'monitor' },
      'Serious events are more frequent than the line set beforehand, and no review has followed yet.',
    ],
    [
      {
        code: 'protected-part',
        part: 'Lens identity pause',
        start: { seen: 40, looked: 40 },
        window: { seen: 17, looked: 20 },
      },
      'The lens identity pause was seen in 17 of 20 cases; before, in 40 of 40.',
    ],
  ])('%o', (pause, sentence) => expect(pauseWords(pause)).toBe(sentence));
});

describe('what should be known beside the numbers', () => {
  it.each<[EyeCaveat, string]>([
    [
      { code: 'few-differ', fact: 'Nucleus', differ: 4, of: 24 },
      'Nucleus is not used: only 4 of 24 cases differ from the commonest.',
    ],
    [
      { code: 'rare-levels', fact: 'Nucleus', rare: 2, of: 28 },
      'Nucleus: 2 of 28 cases have rare levels, too few to be told apart.',
    ],
    [{ code: 'few-entered', fact: 'Toric', entered: 11, of: 19 }, 'Toric is not used: entered in only 11 of 19 cases.'],
    [{ code: 'all-the-same', fact: 'Toric' }, 'Toric is not used: the same in all cases.'],
    [{ code: 'tied', fact: 'Toric' }, 'Toric is not used: it is tied to facts already used.'],
    [{ code: 'too-few-from', fact: 'Nucleus' }, 'Nucleus and the facts after it are not used: too few cases.'],
    [{ code: 'retired', fact: 'gone=x/y' }, 'gone=x/y is not used: the procedure no longer has it.'],
  ])('of the eye: %o', (caveat, sentence) => expect(eyeCaveatWords(caveat)).toBe(sentence));

  it('of many steps once, with their names', () => {
    const less = (step: string, cases: number, nothing = false) =>
      ({ code: 'adjusted-for-less', step, nothing, cases }) as const;
    const single = { code: 'single-cases', listsKnown: true } as const;
    const said = auditCaveatsWords([
      less('Peritomy', 18),
      less('Cautery', 17, true),
      single,
      less('IOL insertion', 17),
    ]);
    expect(said).toEqual([
      'Adjusted for fewer facts, with only 17 to 18 cases each: peritomy and IOL insertion.',
      'Cautery: adjusted for nothing, only 17 cases.',
      auditCaveatWords(single),
    ]);
    expect(auditCaveatsWords([less('Peritomy', 17, true), less('Cautery', 17, true)])).toEqual([
      'Not adjusted, with only 17 cases each: peritomy and cautery.',
    ]);
  });

  it('of an audit, a start and a result', () => {
    expect(auditCaveatWords({ code: 'adjusted-for-less', step: 'S1', nothing: false, cases: 20 })).toBe(
      'S1: adjusted for fewer facts, only 20 cases.',
    );
    expect(auditCaveatWords({ code: 'not-adjusted', step: 'S1', why: 'no-variation' })).toBe(
      'S1: not adjusted, the times hardly vary.',
    );
    expect(auditCaveatWords({ code: 'single-cases', listsKnown: true })).toBe(
      'There are fewer than six lists, so single cases are resampled: differences between lists are not in the uncertainty.',
    );
    expect(startCaveatWords({ code: 'already-shorter', latest: 40 })).toBe(
      'The step was already getting shorter, so only the latest 40 cases are the baseline.',
    );
    expect(resultCaveatWords({ code: 'gone-since', cases: 2 })).toBe(
      '2 baseline or window cases have since been left out or erased.',
    );
    expect(resultCaveatWords({ code: 'paused-and-cannot', why: { code: 'hardly-vary' } })).toBe(
      'These times hardly vary at all, so nothing can be compared.',
    );
  });
});
