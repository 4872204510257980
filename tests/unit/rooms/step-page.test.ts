import { describe, expect, it } from 'vitest';
import { whereWords } from '../../../src/lib/rooms/choose/pair-view';
import { auditOf, type Pattern } from '../../../src/lib/audit';
import { chiefPattern, stepHead } from '../../../src/lib/rooms/choose/step-head';
import { stepSplit } from '../../../src/lib/rooms/choose/step-split';
import { listsFor, month, operation } from '../../made-up/month';

const cases = month(40);
const audit = auditOf({ cases, lists: listsFor(cases), procedure: operation, references: [], seed: 1, resamples: 20 });
const splitBy = (asked: string | null, marked = {}) => stepSplit(audit, 'sixth', cases, { marked, asked, chief: null });

const pattern = (over: Partial<Pattern>): Pattern => ({
  stepId: 'sixth',
  factor: 'dense=true',
  label: 'dense',
  kind: 'fact',
  earlierStepId: null,
  factId: 'dense',
  nWith: 10,
  nWithout: 30,
  eye: null,
  ratio: 1.4,
  low: 1.2,
  high: 1.6,
  shown: true,
  ...over,
});

describe('the cases of a step, split', () => {
  it('puts every case with a time into one row, by what was entered of its eye', () => {
    const split = splitBy('dense');
    const dense = cases.filter(({ facts }) => facts.dense === true);
    expect(split?.input.rows.map(({ dots }) => dots.length)).toEqual([cases.length - dense.length, dense.length]);
    const codes = split?.input.rows.flatMap(({ dots }) => dots.map(({ code }) => code)) ?? [];
    expect(new Set(codes)).toEqual(new Set(cases.map(({ code }) => code)));
    expect(split?.table.rows.map((row) => row[1])).toEqual([String(cases.length - dense.length), String(dense.length)]);
  });

  it('prints the median of the row as recorded, by hand the mean of the two in the middle', () => {
    const times = cases
      .filter(({ facts }) => facts.dense === true)
      .map(({ stretches }) => stretches.find(({ stepId }) => stepId === 'sixth')?.seconds ?? NaN)
      .sort((a, b) => a - b);
    const middle = (times[Math.floor((times.length - 1) / 2)]! + times[Math.ceil((times.length - 1) / 2)]!) / 2;
    expect(splitBy('dense')?.input.rows[1]?.median?.seconds).toBeCloseTo(middle, 6);
  });

  it('splits by time into halves, and falls back to a way that there is', () => {
    expect(splitBy('time')?.input.rows.map(({ label, dots }) => [label, dots.length])).toEqual([
      ['earlier', 20],
      ['later', 20],
    ]);
    expect(splitBy('no-such-fact')?.by).toBe('dense');
    expect(splitBy(null)?.choices.map(({ id }) => id)).toEqual(['dense', 'time']);
  });

  it('marks the two to watch, and says in the key what their dots are', () => {
    const split = splitBy('dense', { [cases[3]!.id]: 'shorter' });
    const marks = split?.input.rows.flatMap(({ dots }) => dots.flatMap(({ mark, code }) => (mark ? [code] : [])));
    expect(marks).toEqual([cases[3]!.code]);
    expect(split?.key).toContain('the two to watch');
    expect(splitBy('dense')?.key).not.toContain('the two to watch');
  });

  it('gives no median of fewer than five cases, and no difference where none was found', () => {
    const few = month(8).map((each) => ({ ...each, facts: {} }));
    const short = auditOf({ cases: few, lists: [], procedure: operation, references: [], seed: 1, resamples: 10 });
    const split = stepSplit(short, 'sixth', few.slice(0, 4), { marked: {}, asked: null, chief: null });
    expect(split).toMatchObject({ by: 'all', choices: [] });
    expect(split?.input.rows[0]?.median).toBeNull();
    expect(splitBy('time')?.reading).toContain('No clear difference was found');
  });
});

describe('the headline of a step', () => {
  const named = { label: 'Capsulorhexis', retired: false };
  it.each([
    [pattern({ label: 'nucleus hard' }), 'Capsulorhexis takes longer in certain eyes (nucleus hard).'],
    [pattern({ label: 'nucleus soft', ratio: 0.7 }), 'Capsulorhexis takes less time in certain eyes (nucleus soft).'],
    [
      pattern({ kind: 'place', factId: null, factor: 'place-first' }),
      'Capsulorhexis takes longer in the first case of a list.',
    ],
    [
      pattern({
        kind: 'over-time',
        factId: null,
        ratio: 0.6,
        label: 'from the first to the latest of these 100 cases',
      }),
      'Capsulorhexis became shorter over these 100 cases.',
    ],
    [
      pattern({ kind: 'earlier-step', factId: null, label: 'after a long hydrodissection' }),
      'Capsulorhexis takes longer after a long hydrodissection.',
    ],
    [pattern({ kind: 'bimodality', factId: null }), 'Capsulorhexis falls into two groups of times.'],
  ])('says what goes with the time: %#', (chief, head) => {
    expect(stepHead(named, chief, true)).toBe(head);
  });

  it('says that nothing does only where something was looked at', () => {
    expect(stepHead(named, null, true)).toBe('Capsulorhexis: nothing goes clearly with a longer time.');
    expect(stepHead(named, null, false)).toBe('Capsulorhexis: too few cases to say when it takes longer.');
    expect(stepHead({ ...named, retired: true }, pattern({}), true)).toBe('Capsulorhexis is a retired step.');
  });

  it('names a fact of the eye before anything else, and of several the largest', () => {
    const trend = pattern({ kind: 'over-time', factId: null, ratio: 0.3 });
    const small = pattern({ factor: 'dense=a', ratio: 1.2 });
    const large = pattern({ factor: 'dense=b', ratio: 0.6 });
    expect(chiefPattern([trend, small, large])).toBe(large);
    expect(chiefPattern([])).toBeNull();
  });
});

describe('where a step of the pair stands in its recording', () => {
  it('is in whole seconds, rounded as on every page that names it', () => {
    const one = { start: 67.6, end: 136.8 };
    expect(whereWords([one])).toBe('1:08 to 2:17');
    expect(whereWords([one, { start: 150, end: 160.2 }])).toBe('1:08 to 2:17, then 2:30 to 2:40');
    expect(whereWords([])).toBe('');
  });
});
