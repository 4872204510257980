import { describe, expect, it } from 'vitest';
import { adjustedBy, pairOf, stepSecondsOf, waitingOf, timesReturnedTo, type StepFit } from '../../../src/lib/audit';
import { groupEffect } from '../../../src/lib/audit/group-effect';
import type { Case, Stretch } from '../../../src/lib/model';
import { suggestionOf } from '../../../src/lib/rules/suggestion';
import { mad, mean, median, quantile, theilSen, wilcoxonRankSum } from '../../../src/lib/statistics';
import { case_, length, procedure, step, stretch } from '../../made-up/cases';
import { audit, noEvents, stepAudit } from '../rules/made-up-audit';
import { figures, rowOf, textOf } from './page-text';

/**
 * The worked examples on the pages about the record, each done again by the functions the screens use. The figures that
 * go in are read from the page or stand in the sentence the test looks for, so that neither can change alone.
 */
const one = (stretches: Stretch[], more: Partial<Case> = {}) => case_(1, stretches, more);
const unreviewed = { stepId: 'a', seriousUnreviewed: 1, seriousLast100: 1, casesSinceLatest: 5, kinds: [] };
const logs = (values: readonly number[]) => Float64Array.from(values, Math.log);

describe('worked examples', () => {
  it.each(['1', '2', '3', '4'])('adjusted for the eye, case %s', (row) => {
    const [, nucleus, recorded, adjusted] = rowOf('adjusted', row);
    const effect = Math.log(1.25);
    const share = 0.5;
    // One column, 0 or 1 for dense, centred at its mean, as `eyeColumns` makes it.
    const dense = nucleus === 'dense' ? 1 : 0;
    const times = ['1', '2', '3', '4'].map((each) => rowOf('adjusted', each));
    const taken = times.map(
      ([, kind, text]) => figures(text)[0]! / Math.exp(effect * ((kind === 'dense' ? 1 : 0) - share)),
    );
    const factor = median(times.map(([, , text]) => figures(text)[0]!)) / median(taken);
    const fit = { used: [0], coefficients: [effect], factor } as unknown as StepFit;
    const eye = { columns: [Float64Array.of(dense - share)] };
    const [time] = adjustedBy(Float64Array.of(figures(recorded)[0]!), eye, fit);
    expect(adjusted).toMatch(new RegExp(`= ${Math.round(time!)} s$`));
    expect(adjusted).toContain(`× ${Math.exp(effect * share).toFixed(2)}`);
  });

  it.each([
    ['1', 'time'],
    ['2', 'level'],
    ['3', 'nothing'],
    ['4', 'safety'],
  ] as const)('what is suggested, record %s', (row, kind) => {
    const [, seconds, spread, said] = rowOf('suggestion', row);
    const [first = 0, second = 0] = figures(seconds).map((share) => share / 100);
    const steps = [
      stepAudit('a', { first: { seconds: first, spread: figures(spread)[0]! / 100, reference: null } }),
      stepAudit('b', { first: { seconds: second, spread: 0.1, reference: null } }),
      stepAudit('c', { first: { seconds: 0, spread: 0.1, reference: null } }),
    ];
    const safety = kind === 'safety' ? { ...noEvents, steps: [unreviewed] } : noEvents;
    expect(suggestionOf(audit(steps), safety).kind).toBe(kind);
    expect(said).toMatch(
      { time: /suggested/, level: /cannot be told apart/, nothing: /no step stands out/, safety: /^safety first/ }[
        kind
      ],
    );
  });

  it('step time', () => {
    const inside = [
      stretch('a', 20, 26, { kind: 'protected' }),
      stretch('a', 90, 94, { kind: 'waiting', reason: 'lens-loading' }),
    ];
    expect(stepSecondsOf(one([stretch('a', 10, 52), stretch('a', 80, 100), ...inside]), 'a')).toBe(52);
    expect(stepSecondsOf(one([stretch('a', 100, 130), stretch('a', 130.5, 150)]), 'a')).toBe(50);
    const supervised = { hands: { whole: 'mine', steps: { a: 'supervisor' } } } as unknown as Partial<Case>;
    expect(stepSecondsOf(one([stretch('a', 40, 95)], supervised), 'a')).toBeNull();
    expect(stepSecondsOf(one([]), 'a')).toBeNull();
    expect(rowOf('step-time', '1')).toEqual([
      '1',
      '10 to 52 s and 80 to 100 s; in them a protected part of 6 s and 4 s of waiting',
      '42 + 20 − 6 − 4 = 52 s',
    ]);
    expect(rowOf('step-time', '2').join(' ')).toMatch(/100 to 130 s and 130\.5 to 150 s.* 50 s$/);
    for (const row of ['3', '4']) expect(rowOf('step-time', row)[2]).toBe('absent');
  });

  it('median, 20th percentile, difference', () => {
    const times = [62, 70, 84, 110];
    const [middle, fifth] = [median(times), quantile(times, 0.2)];
    expect(textOf('median')).toContain(`${times.slice(0, 3).join(', ')} and ${times[3]} s.`);
    expect(textOf('median')).toContain(`half-way between the two in the middle: ${middle} s.`);
    expect(textOf('median')).toContain(`a little above the shortest: ${fifth.toFixed(1)} s.`);
    expect(textOf('median')).toContain(`The difference is ${(middle - fifth).toFixed(1)} s.`);
  });

  it('spread', () => {
    const times = [60, 72, 80, 96];
    const [middle, spread] = [median(times), Math.exp(mad(logs(times)))];
    expect(textOf('spread')).toContain(`60, 72, 80 and 96 s, with a median of ${middle} s.`);
    expect(textOf('spread')).toContain(`The spread is ${spread.toFixed(2)}.`);
    expect(textOf('spread')).toContain(`${Math.round(middle / spread)} to ${Math.round(middle * spread)} s.`);
  });

  it('against the reference set', () => {
    const [own, theirs] = [median([90, 100, 110, 120]), median([60, 70, 80, 90])];
    expect(textOf('reference')).toContain('90, 100, 110 and 120 s; they took 60, 70, 80 and 90 s.');
    expect(textOf('reference')).toContain(`${own} s and ${theirs} s. You take ${(own / theirs).toFixed(1)} times`);
  });

  it('share of the operation', () => {
    const cases = ['1', '2', '3', '4'].map((row) => rowOf('share', row).slice(1).flatMap(figures));
    const medians = [0, 1, 2].map((index) => median(cases.map((times) => times[index]!)));
    expect(rowOf('share', 'median').slice(1).flatMap(figures)).toEqual(medians);
    const sum = medians.reduce((a, b) => a + b, 0);
    expect(textOf('share')).toContain(`add up to ${sum} s, so step A has ${Math.round((100 * medians[0]!) / sum)} in`);
  });

  it('returned to', () => {
    const cases = [
      [stretch('a', 10, 50)],
      [stretch('a', 10, 50), stretch('b', 50, 60), stretch('a', 60, 70)],
      [stretch('a', 10, 50), stretch('a', 50.6, 60), stretch('a', 80, 90)],
      [stretch('a', 10, 50), stretch('a', 50, 60, { kind: 'waiting', reason: 'machine' }), stretch('a', 60, 70)],
    ].map((stretches) => timesReturnedTo(one(stretches), 'a')!);
    expect(cases).toEqual(['1', '2', '3', '4'].flatMap((row) => figures(rowOf('returned-to', row)[2])));
    const returned = cases.filter((count) => count > 0).length;
    expect(textOf('returned-to')).toContain(`returned to in ${returned} of ${cases.length} cases`);
  });

  it('waiting', () => {
    const waited = [30, 0, 14, 0].map((seconds) => {
      const wait = seconds > 0 ? [length('a', seconds, { kind: 'waiting', reason: 'machine' })] : [];
      return waitingOf(one([length('a', 90), ...wait]), 'a');
    });
    const sum = waited.reduce((a, b) => a + b, 0);
    expect(textOf('waiting')).toContain('30 s were noted in case 1 and 14 s in case 3');
    expect(textOf('waiting')).toContain(`${sum} s over 4 cases, or ${sum / 4} s a case. It was noted in 2 of 4`);
  });

  it('over time', () => {
    const { slope, low, high } = theilSen([3, 8, 13, 18], logs([100, 92, 95, 86]));
    expect(textOf('over-time')).toContain('the means were 100, 92, 95 and 86 s.');
    expect(textOf('over-time')).toContain(`${Math.round(100 * (1 - Math.exp(20 * slope)))} % less for every 20 cases.`);
    expect([low, high]).toEqual([-Infinity, Infinity]);
  });

  it('how sure', () => {
    const [a, b] = [1, 2].map((cell) => ['1', '2', '3', '4'].flatMap((row) => figures(rowOf('certainty', row)[cell])));
    const places = [0, 1, 2, 3];
    const draws = places.flatMap((x) => places.flatMap((y) => places.map((z) => [x, y, z])));
    const of = (values: readonly number[], draw: readonly number[]) => median(draw.map((place) => values[place]!));
    const first = draws.filter((draw) => of(a!, draw) > of(b!, draw)).length;
    expect(textOf('certainty')).toContain(
      `there are ${draws.length} ways. Step A has the larger median in ${first} of the ${draws.length}, so it is first in ${Math.round((100 * first) / draws.length)} of 100`,
    );
  });

  it('when it takes longer', () => {
    const dense = [104, 120, 126, 140];
    const others = [80, 88, 92, 100];
    const { p } = wilcoxonRankSum(dense, others);
    const { ratio } = groupEffect(logs(dense), logs(others));
    const typical = Math.exp(median(dense.flatMap((x) => others.map((y) => Math.log(x / y)))));
    expect(textOf('patterns')).toContain('104, 120, 126 and 140 s against 80, 88, 92 and 100 s.');
    expect(textOf('patterns')).toContain(`in ${Math.round(100 * p)} of 100 records`);
    expect(textOf('patterns')).toContain(
      `is ${typical.toFixed(2)}. Shrunk because it was found by looking at many, it becomes`,
    );
    expect(textOf('patterns')).toContain(`becomes ${ratio.toFixed(2)}: "about ${ratio.toFixed(1)} times as long"`);
  });

  it('two recordings to watch', () => {
    // Only the four cases of the table are without an event, but the third.
    const quiet = ['1', '2', '4'].flatMap((row) => figures(rowOf('pair', row)[1]));
    expect(figures(rowOf('pair', '3')[1])).toEqual([52]);
    const event = { kind: 'other', stepId: 'a', serious: false, noticed: 'during', note: '' } as unknown;
    const cases = Array.from({ length: 40 }, (_, place) =>
      case_(place + 1, [stretch('a', 100, 141 + place), stretch('b', 200, 230)], {
        events: quiet.includes(41 + place) ? [] : ([event] as NonNullable<Case['events']>),
      }),
    );
    const pair = pairOf({ cases, lists: [], procedure: procedure([step('a'), step('b')]), stepId: 'a' });
    expect(pair).toMatchObject({ kind: 'pair', shorter: { seconds: 50 }, longer: { seconds: 75 } });
  });

  it.each(['1', '2', '3', '4'])('case by case, case %s', (row) => {
    const [, own, others, against] = rowOf('case-by-case', row);
    const rest = mean(figures(others).map(Math.log));
    expect(figures(against)).toEqual([Math.round(100 * Math.exp(Math.log(Number(own)) - rest))]);
  });
});
