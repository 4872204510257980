import { describe, expect, it } from 'vitest';
import { longerNeighbours } from '../../../src/lib/practice/longer-neighbours';
import { resultFor, startGoal } from '../../../src/lib/practice';
import { plainBlanks } from '../../../src/lib/format';
import { resultWords } from '../../../src/lib/words';
import { listsFor, month, operation } from '../../made-up/month';
import { inventedArrays } from './invented-arrays';

/** A fifth of the practised step's time is moved into the step after it, from case 41 on. */
const moved = month(60, { sd: 0.1 }).map((one, at) => ({
  ...one,
  stretches: one.stretches.map((each) => {
    const own = one.stretches.find(({ stepId }) => stepId === 'practised')!.seconds;
    if (at < 40) return each;
    if (each.stepId === 'practised') return { ...each, seconds: 0.7 * own };
    return each.stepId === 'third' ? { ...each, seconds: each.seconds + 0.3 * own } : each;
  }),
}));
const ids = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, at) => `case-${from + at}`);

function outcomeOf(cases: typeof moved) {
  const common = {
    cases,
    lists: listsFor(cases),
    procedure: operation,
    stepId: 'practised',
    measure: 'time' as const,
    seed: 1,
  };
  const start = startGoal({ ...common, references: [], chosenBy: 'own', engine: 'test', from: 41 });
  if (start.kind !== 'start') throw new Error(start.why.code);
  return resultFor({ ...common, baseline: start.baseline, windowIds: ids(41, 60), look: 'first' });
}

describe('a step next to one that was found shorter', () => {
  it('is named where it took clearly longer against its own rest, with the question about the clock', () => {
    const outcome = outcomeOf(moved);
    expect(outcome.kind).toBe('shorter');
    expect(outcome.neighbours?.map(({ stepId }) => stepId)).toEqual(['third']);
    expect(outcome.notes).toContain('neighbour-longer');
    const { beside } = resultWords(outcome, { stepLabel: 'Practised', falsePerHundred: 2 });
    expect(plainBlanks(beside.join(' '))).toMatch(
      /The step next to it, third, took about \d+ % more time .* Does the clock between the two still stop where it used to\?/,
    );
  });

  it('is not named where the step alone changed, nor beside another result', () => {
    const alone = outcomeOf(month(60, { sd: 0.1, change: Math.log(0.7) }));
    expect(alone.kind).toBe('shorter');
    expect(alone.neighbours).toBeUndefined();
    expect(outcomeOf(month(60, { sd: 0.1 })).neighbours).toBeUndefined();
  });

  it('is held against a rest without the practised step', () => {
    const input = inventedArrays();
    const others = (step: number) => [0, 1, 2, 3, 4, 5].filter((each) => each !== step);
    const with_ = longerNeighbours(input, [1, 3], others);
    const halved = { ...input, y: input.y.map((row, step) => (step === 2 ? row.map((value) => value - 3) : row)) };
    expect(longerNeighbours(halved, [1, 3], others)).toEqual(with_);
  });
});

describe('what a result says of its adjustment', () => {
  it('is adjusted for the eye only where there was a fact to adjust by', () => {
    const words = (outcome: ReturnType<typeof outcomeOf>) =>
      resultWords(outcome, { stepLabel: 'Practised', falsePerHundred: 2 }).sentences.join(' ');
    const blank = moved.map((one) => ({ ...one, facts: {} }));
    expect(outcomeOf(moved).adjusted).toBe(true);
    expect(words(outcomeOf(moved))).toContain('40 baseline cases, adjusted for the eye.');
    expect(outcomeOf(blank).adjusted).toBe(false);
    expect(words(outcomeOf(blank))).toContain('20 cases against 40 baseline cases.');
  });

  it('says of a step that stayed while the rest got shorter just that', () => {
    const rest = outcomeOf(month(60, { sd: 0.1, rest: Math.log(0.75) }));
    expect(rest.kind).toBe('cannot-tell');
    expect(rest.against!.rawLow).toBeGreaterThan(0);
    const { sentences } = resultWords(rest, { stepLabel: 'Practised', falsePerHundred: 2 });
    expect(plainBlanks(sentences[0] ?? '')).toMatch(
      /^The rest of these operations took about \d+ % less time \(.* % less\); practised stayed about as it was\.$/,
    );
  });
});
