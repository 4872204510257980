import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { restStepsOf } from '../../../src/lib/practice';
import { procedure, step } from '../../made-up/cases';
import { operation } from '../../made-up/month';

const all = operation.steps.map(({ id }) => id);

describe('which steps stand for the rest of the operation', () => {
  it('leaves out steps downstream of the practised one while three others remain', () => {
    expect(restStepsOf(operation, all, 'practised')).toEqual(['first', 'fifth', 'sixth', 'seventh']);
    expect(restStepsOf(operation, all, 'sixth')).toEqual(['first', 'practised', 'third', 'fourth', 'fifth', 'seventh']);
  });

  it('keeps the downstream ones that name it last where too few others are timed: the nearest goes first', () => {
    expect(restStepsOf(operation, ['first', 'practised', 'third', 'fourth', 'fifth'], 'practised')).toEqual([
      'first',
      'fourth',
      'fifth',
    ]);
    expect(restStepsOf(operation, ['practised', 'third', 'fourth', 'fifth'], 'practised')).toEqual([
      'third',
      'fourth',
      'fifth',
    ]);
  });

  it('never takes a step under a goal of its own, or one too rarely timed', () => {
    expect(restStepsOf(operation, all, 'practised', { underGoal: ['first'] })).toEqual(['fifth', 'sixth', 'seventh']);
    expect(restStepsOf(operation, all, 'practised', { usable: (id) => id !== 'fifth' })).toEqual([
      'first',
      'sixth',
      'seventh',
    ]);
  });

  it('never takes a part of the practised step, nor a step it is a part of', () => {
    const merged = procedure([
      step('port'),
      step('main'),
      step('cut', { mergeOf: ['port', 'main'] }),
      step('d'),
      step('e'),
    ]);
    expect(restStepsOf(merged, ['port', 'main', 'cut', 'd', 'e'], 'cut')).toEqual(['d', 'e']);
    expect(restStepsOf(merged, ['port', 'main', 'cut', 'd', 'e'], 'port')).toEqual(['main', 'd', 'e']);
  });

  it('whatever is timed: never the step itself, and never fewer than three where three others are there', () => {
    fc.assert(
      fc.property(fc.subarray(all), fc.constantFrom(...all), (timed, practised) => {
        const rest = restStepsOf(operation, timed, practised);
        const others = timed.filter((id) => id !== practised);
        expect(rest).not.toContain(practised);
        expect(rest.length).toBeGreaterThanOrEqual(Math.min(3, others.length));
        expect(rest).toEqual(timed.filter((id) => rest.includes(id)));
      }),
    );
  });
});
