import { describe, expect, it } from 'vitest';
import { timingError } from '../../../src/lib/audit/timing-error';
import type { Case } from '../../../src/lib/model';
import { canBeTimedAgain, caseOfAgain, againCode, timedAgain } from '../../../src/lib/rooms/cases/timed-again';
import { newDraft } from '../../../src/lib/recording';
import { timingErrorWords } from '../../../src/lib/words/timing-error';
import { aCase, smallProcedure } from '../../made-up/record';

const twice = (n: number, first: number, second: number): Case =>
  aCase(n, {
    stretches: [{ stepId: 'cortex', start: null, end: null, seconds: first, kind: 'step', reason: null }],
    timedAgain: [{ at: '2026-01-01T10:00:00Z', stepSeconds: { cortex: second } }],
  });

describe('own timing error', () => {
  it('is worked out as on its page: 80 and 82, 100 and 99, 60 and 60, 120 and 123 s', () => {
    const error = timingError([twice(1, 80, 82), twice(2, 100, 99), twice(3, 60, 60), twice(4, 120, 123)], 'cortex');
    expect(error).toMatchObject({ n: 4, difference: 1, from: -1, to: 3 });
    // By hand: logs 0.024693, -0.010050, 0, 0.024693; middle 0.0123463; median distance from it 0.0123463.
    expect(error?.error).toBeCloseTo((1.4826 * 0.0123463) / 1.41421356, 6);
  });

  it('is none where no case was timed twice, and says nothing of a spread below three', () => {
    expect(timingError([aCase(1)], 'cortex')).toBe(null);
    const one = timingError([twice(1, 80, 81)], 'cortex');
    expect(one).toMatchObject({ n: 1, error: null });
    expect(one && timingErrorWords(one, 1.3)).toEqual([
      'You timed 1 case twice, the first marks hidden: the second time was 1.0 s longer. From fewer than three nothing is said about the spread of your timing.',
    ]);
  });

  it('is said to be much above a third of the spread of the step, and not below', () => {
    const error = { n: 4, difference: 0.4, from: -1, to: 2, error: Math.log(1.1) };
    const said = (spread: number) => timingErrorWords(error, spread).join(' ');
    // ln 1.1 is a third of ln 1.331.
    expect(said(1.32)).toContain('more than a third');
    expect(said(1.34)).toContain('little of it comes from your timing');
    expect(said(1.34)).toContain('about 10.0 %');
  });
});

describe('a second timing', () => {
  const now = '2026-02-01T10:00:00Z';
  const timed = aCase(7, { source: { kind: 'timed' } });
  const draft = {
    ...newDraft(againCode(timed.id)),
    log: {
      edits: [{ do: 'typed' as const, kind: 'step' as const, stepId: 'cortex', reason: null, from: 10, to: 41.5 }],
      holds: 1,
    },
  };

  it('stands beside the first, which stays', () => {
    const { changed, steps, errors } = timedAgain(draft, timed, smallProcedure, now);
    expect(errors).toEqual([]);
    expect(steps).toBe(1);
    expect(changed).toEqual({ ...timed, timedAgain: [{ at: now, stepSeconds: { cortex: 31.5 } }] });
  });

  it('without a whole step is not kept', () => {
    expect(timedAgain(newDraft('x'), timed, smallProcedure, now).errors).toHaveLength(1);
  });

  it('is of a case timed here whose times may be seen', () => {
    expect(canBeTimedAgain(timed, new Set())).toBe(true);
    expect(canBeTimedAgain(timed, new Set([timed.id]))).toBe(false);
    expect(canBeTimedAgain(aCase(1), new Set())).toBe(false);
    expect(canBeTimedAgain({ ...timed, keptAsItIs: { since: now, why: 'a claim' } }, new Set())).toBe(false);
    expect(caseOfAgain(againCode('case-17'))).toBe('case-17');
    for (const code of ['case-17', 'again', 'again case-0', 'again case-1 ', '']) expect(caseOfAgain(code)).toBe(null);
  });
});
