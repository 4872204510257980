import { describe, expect, it } from 'vitest';
import { eyeFitsOf, fitProblem, isFit } from '../../../src/lib/rules';
import { loadProcedures } from '../../../src/lib/server/content/library';

const phaco = loadProcedures().find(({ id }) => id === 'phaco');
if (!phaco) throw new Error('phaco is shipped');

describe('what a checkpoint may answer', () => {
  it.each(['longer', 'eye:pupil:small', 'eye:toric', 'event:wound-burn', 'part:lens-identity'])('%s is one', (fit) => {
    expect(isFit(fit)).toBe(true);
  });

  it.each(['', 'shorter', 'eye:', 'eye:pupil:small:very', 'event:', 'event:a:b', 'eyes:toric', 'Longer'])(
    '"%s" is none',
    (fit) => {
      expect(isFit(fit)).toBe(false);
    },
  );

  it('a part belongs to its own step', () => {
    expect(fitProblem('part:lens-identity', phaco, 'iol-insertion')).toBeNull();
    expect(fitProblem('part:lens-identity', phaco, 'wound-check')).toBe(
      'no protected part "lens-identity" in wound-check',
    );
  });

  it('a yes or no with named levels needs one of them', () => {
    expect(fitProblem('eye:still:no', phaco, 'side-port')).toBeNull();
    expect(fitProblem('eye:still', phaco, 'side-port')).toBe('the fact "still" needs one of its levels');
  });
});

describe('the eyes a pattern is about', () => {
  it.each([
    ['nucleus=hard+very-hard', ['eye:nucleus:hard', 'eye:nucleus:very-hard']],
    ['toric=true', ['eye:toric', 'eye:toric:yes']],
    ['still=false', ['eye:still:no']],
  ])('%s', (factor, fits) => {
    expect(eyeFitsOf(factor)).toEqual(fits);
  });
});
