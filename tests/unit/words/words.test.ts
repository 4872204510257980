import { describe, expect, it } from 'vitest';
import type { Effect, Outcome } from '../../../src/lib/model';
import {
  clock,
  inHundred,
  plainBlanks,
  timesAsLong,
  lessOrMore,
  ofHundred,
  prose,
  rangeOfRatios,
  timesInTen,
} from '../../../src/lib/format';
import {
  othersCases,
  stepEventWords,
  CERTAINTY,
  eventWords,
  firstWords,
  lastingWords,
  powerWords,
  resultWords,
  takeoverWords,
} from '../../../src/lib/words';
import { plainOutcome } from '../../made-up/plain';

const effect = (estimate: number, low: number, high: number): Effect => ({
  estimate: Math.log(estimate),
  low: Math.log(low),
  high: Math.log(high),
  rawEstimate: Math.log(estimate),
  rawLow: Math.log(low),
  rawHigh: Math.log(high),
  se: 0.05,
  df: 50,
  nBaseline: 40,
  nWindow: 20,
  method: 'test',
});

const outcome = (over: Partial<Outcome>): Outcome => ({
  ...plainOutcome(),
  against: effect(0.82, 0.74, 0.91),
  plain: effect(0.8, 0.7, 0.9),
  rest: effect(0.98, 0.9, 1.05),
  selectionAllowance: 0.02,
  steer: -0.1,
  baselineMedian: 83,
  powerForAFifth: 0.61,
  ...over,
});
const context = { stepLabel: 'Capsulorhexis', falsePerHundred: 2 };

describe('a goal on steadiness', () => {
  const spread = effect(0.7, 0.5, 0.95);
  const narrower = { rangeBaseline: [60, 120], rangeWindow: [70, 105] } satisfies Partial<Outcome>;
  const said = (over: Partial<Outcome>) =>
    resultWords(outcome({ measure: 'steadiness', spread, ...over }), context).sentences.map(plainBlanks);

  it('is told by how much the step varies, with interval and n, and by ranges only where they narrowed', () => {
    expect(said({ kind: 'steadier', ...narrower })).toEqual([
      'Capsulorhexis varied about 30 % less from case to case, against the rest of the same operations (5 to 50 % less).',
      '20 cases against 40 baseline cases.',
      'Two thirds of cases now fall between 1 min 10 s and 1 min 45 s; before, between 1 min and 2 min.',
    ]);
    const wider = said({ kind: 'steadier', rangeBaseline: [96, 144], rangeWindow: [100, 154] }).join(' ');
    expect(wider).toContain('do not lie closer together');
    expect(wider).not.toContain('now fall');
  });

  it('without a clear change never quotes how long the step took', () => {
    const words = said({ kind: 'cannot-tell', spread: effect(1.02, 0.65, 1.61), ...narrower }).join(' ');
    expect(words).toContain(
      'How much capsulorhexis varies from case to case, against the rest of the same operations: the likeliest figure is 2 % more, but anything from 35 % less to 61 % more fits.',
    );
    expect(words).not.toMatch(/18 % less|20 % less|a fifth shorter/);
  });
});

describe('durations', () => {
  it.each([
    [83, '1 min 23 s', '1:23'],
    [41.4, '41 s', '0:41'],
    [60, '1 min', '1:00'],
    [59.6, '1 min', '1:00'],
    [0.2, 'under 1 s', '0:00'],
    [3723, '62 min 3 s', '1:02:03'],
  ])('%d s reads %s and %s', (seconds, inProse, inTable) => {
    expect(plainBlanks(prose(seconds))).toBe(inProse);
    // No line may end between a figure and its unit.
    expect(prose(seconds)).not.toContain(' ');
    expect(clock(seconds)).toBe(inTable);
  });
});

describe('shares', () => {
  it('says less and more, and orders an interval as people read it', () => {
    expect(lessOrMore(0.82)).toBe('18\u00A0% less');
    expect(lessOrMore(1.14)).toBe('14\u00A0% more');
    expect(lessOrMore(1.001)).toBe('no difference');
    expect(rangeOfRatios(0.74, 0.91)).toBe('9 to 26\u00A0% less');
    expect(rangeOfRatios(1.05, 1.24)).toBe('5 to 24\u00A0% more');
    expect(rangeOfRatios(0.83, 1.06)).toBe('from 17\u00A0% less to 6\u00A0% more');
  });
  it('never rounds a chance to certainty', () => {
    expect(timesInTen(0.999)).toBe('more than 9 times in 10');
    expect(timesInTen(0.001)).toBe('less than 1 time in 10');
    expect(ofHundred(0.9999)).toBe(99);
    expect(ofHundred(1)).toBe(100);
  });
  it('gives a ratio and its interval to one precision, and never prints an end as the 1 it does not hold', () => {
    const said = (ratio: number, low: number, high: number) => Object.values(timesAsLong({ ratio, low, high }));
    expect(said(1.71, 1.44, 2.1)).toEqual(['1.7', '1.4', '2.1']);
    expect(said(3, 2.7, 3.5)).toEqual(['3', '2.7', '3.5']);
    expect(said(1.13, 1.04, 1.22)).toEqual(['1.13', '1.04', '1.22']);
    expect(said(0.78, 0.67, 0.87)).toEqual(['0.78', '0.67', '0.87']);
    expect(said(12.4, 10.2, 15.6)).toEqual(['12', '10', '16']);
  });

  it('shows rates as in the published example: 1 in 60 is 0.04 to 8.9 in 100', () => {
    // Clopper–Pearson limits of 1/60, scipy 1.17 beta.ppf: 0.000421884, 0.0893998
    expect(inHundred(0.000421884)).toBe('0.04');
    expect(inHundred(0.0893998)).toBe('8.9');
    expect(inHundred(0.1391)).toBe('14');
    // The published rate of posterior capsule rupture or vitreous loss, Eye 2015;29:552: 1.95 %.
    expect(inHundred(0.0195)).toBe('2');
    expect(inHundred(0.0194)).toBe('1.9');
    expect(inHundred(0)).toBe('0');
  });
});

describe('certainty', () => {
  it('has one table that only falls, and no word for proof', () => {
    for (let row = 1; row < CERTAINTY.length; row++)
      expect(CERTAINTY[row]?.from).toBeLessThan(CERTAINTY[row - 1]?.from ?? 0);
    expect(CERTAINTY.map((row) => row.words).join(' ')).not.toMatch(/significant|proof|proven|certain|p </i);
    expect(firstWords(0.97)).toBe('first nearly every time');
    expect(firstWords(null)).toBe('');
    expect(firstWords(NaN)).toBe('');
  });
});

describe('results', () => {
  it('says shorter with its interval, seconds, numbers and what it does not say', () => {
    const words = resultWords(outcome({ kind: 'shorter' }), context);
    expect(words.head).toBe('Shorter, beyond the rest of the operation');
    expect(words.sentences.join(' ')).toBe(
      'Capsulorhexis took about 18\u00A0% less time than the rest of the same operations would lead you to expect (9 to 26\u00A0% less; about 15\u00A0s a case). 20 cases against 40 baseline cases, adjusted for the eye.',
    );
    expect(words.doesNotSay).toContain('about 2 times in 100');
  });
  it('says no clear change without calling it failure', () => {
    const words = resultWords(outcome({ against: effect(0.94, 0.83, 1.06) }), context);
    expect(words.sentences.join(' ')).toContain(
      'The likeliest figure is 6\u00A0% less, but anything from 17\u00A0% less to 6\u00A0% more fits.',
    );
    expect(words.sentences.join(' ')).toContain('about 6 times in 10');
  });
  it('names what stands beside a result', () => {
    const words = resultWords(
      outcome({
        kind: 'shorter',
        notes: ['prior-trend', 'second-look', 'experience'],
        priorTrend: Math.log(0.91),
        leftOutSeen: 2,
        kindWithLeftOut: 'cannot-tell',
      }),
      context,
    );
    expect(words.beside).toEqual([
      'This was already under way: going on as before would have given about 9\u00A0% less.',
      'Some of this may come with experience.',
      'Second look, at forty. Because the first look came at twenty, this one is judged more strictly.',
      '2 cases were left out after their times were seen. With them in, the result would be: No clear change. It depends on the cases left out.',
    ]);
  });
  it('praises no speed in any kind', () => {
    const kinds = [
      'paused',
      'shorter',
      'all-round',
      'rest-longer',
      'steadier',
      'longer',
      'little-change',
      'cannot-tell',
    ] as const;
    for (const kind of kinds) {
      const words = resultWords(outcome({ kind, rangeBaseline: [62, 112], rangeWindow: [72, 91] }), context);
      const all = [words.head, ...words.sentences, words.doesNotSay, ...words.beside].join(' ');
      expect(all.length).toBeGreaterThan(40);
      expect(all).not.toMatch(/\b(improve|better|good|great|faster|quicker|slower|best|worst|target|significant)\b/i);
      expect(all).not.toMatch(/NaN|undefined|null/);
    }
  });
  it('says whether it lasted', () => {
    const words = lastingWords(
      { nth: 1, kind: 'lasted', effect: effect(0.85, 0.77, 0.94), firstEstimate: Math.log(0.82), together: null },
      'Capsulorhexis',
    );
    expect(words.head).toBe('Lasted');
    expect(words.sentence).toContain('about 15\u00A0% less (6 to 23\u00A0% less)');
  });
  it('tells beforehand what twenty cases can show', () => {
    expect(powerWords({ twenty: 0.61, forty: 0.79 }, { twenty: 0.2 })).toMatch(
      /^If this step became a fifth shorter, twenty cases would show it about 6 times in 10, forty about 8 times in 10\. A tenth: about 2 times in 10\./,
    );
  });
});

describe('events', () => {
  const none = {
    cases: 20,
    answered: 20,
    events: 0,
    withEvent: 0,
    withNone: 20,
    nextDay: { known: 14, of: 20 },
    untimed: null,
  };
  const one = { events: 1, withEvent: 1 };
  it('never shows zero as proof', () => {
    const words = eventWords(none);
    expect(words.head).toBe('No event in these 20 cases (answered in 20 of 20; next-day course known in 14).');
    expect(words.sentences.join(' ')).toContain('more than one time in three');
    expect(words.sentences.join(' ')).toContain('Rates up to 14 in 100 cannot be ruled out.');
    expect(eventWords({ ...none, nextDay: { known: 38, of: 40 } }).head).toContain(
      'next-day course known in 38 of the 40 operated on their lists',
    );
  });
  it('says not recorded is not none', () => {
    expect(eventWords({ ...none, answered: 12, withNone: 12 }).sentences[0]).toBe(
      'Nothing can be said about the other 8.',
    );
    // 1 in 60: scipy.stats.binomtest(1, 60).proportion_ci()
    expect(eventWords({ ...none, ...one, cases: 60, answered: 60, withNone: 59 }).sentences[0]).toBe(
      'The true rate could be anywhere from 0.04 to 8.9 in 100.',
    );
  });
  it('says of which cases events were not asked, and of the record only where that holds for all of it', () => {
    const never = { ...none, answered: 0, withNone: 0 };
    expect(eventWords(never)).toEqual({
      head: 'Events were not asked in these 20 cases.',
      sentences: ['Nothing can be said about safety.'],
    });
    expect(eventWords({ ...never, scope: 'record' }).head).toBe('Events were not asked in this record.');
    const untimed = { operated: 5, answered: 5, withEvent: 0, withSerious: 0 };
    expect(eventWords({ ...never, scope: 'record', untimed }).head).toBe('Events were not asked in these 20 cases.');
  });
  it('gives no rate where only the events were written down, and counts events as events', () => {
    const only = eventWords({ ...none, cases: 48, answered: 2, withNone: 0, events: 3, withEvent: 2 });
    expect(only).toEqual({
      head: '3 events are written down, in 2 of these 48 cases.',
      sentences: [
        'No case is answered with none, so nothing can be said about how often events happen, or about the other 46 cases.',
      ],
    });
    expect(eventWords({ ...none, events: 3, withEvent: 2, withNone: 18 }).head).toBe('3 events, in 2 of 20 cases.');
  });
  it('gives zero events of a step with the rate they cannot rule out, and some with their interval', () => {
    // 1 − 0.05^(1/96) = 0.0307: exact, for none in 96.
    const step = { cases: 100, answered: 96, withEvent: 0, withNone: 96, mayBelong: 0 };
    expect(stepEventWords(step)).toBe(
      'No event is tied to this step (events answered in 96 of 100 cases). 0 of 96: the true rate could be up to 3.1 in 100. That cannot show that it is safe.',
    );
    expect(stepEventWords({ ...step, cases: 60, answered: 60, withEvent: 1, withNone: 59 })).toContain(
      'anywhere from 0.04 to 8.9 in 100',
    );
    expect(stepEventWords({ ...step, answered: 0, withNone: 0 })).toBe(
      'Events were not asked in these 100 cases: nothing can be said about safety.',
    );
    expect(stepEventWords({ ...step, answered: 2, withNone: 0 })).toBe(
      'No event is tied to this step (events answered in 2 of 100 cases). No case is answered with none, so nothing can be said about how often.',
    );
  });
  it('says that an event tied to no step may belong to this one, and bounds it both ways', () => {
    // scipy.stats.binomtest(1, 100).proportion_ci(): up to 5.4 in 100
    expect(stepEventWords({ cases: 100, answered: 100, withEvent: 0, withNone: 99, mayBelong: 1 })).toBe(
      'No event is tied to this step (events answered in 100 of 100 cases); 1 case has an event that is tied to no step and may belong here. The true rate could be anywhere from 0 to 5.4 in 100.',
    );
  });

  it('speaks of one case as of one', () => {
    const said = (over: Partial<Parameters<typeof eventWords>[0]>) => {
      const { head, sentences } = eventWords({ ...none, ...over });
      return [head, ...sentences].join(' ');
    };
    expect(said({ cases: 2, answered: 1, withNone: 1 })).toBe(
      'Events were answered in 1 of these 2 cases; none in that one. Nothing can be said about the other one. For the one answered, rates up to 95 in 100 cannot be ruled out.',
    );
    expect(said({ cases: 1, answered: 1, withNone: 1, nextDay: { known: 1, of: 1 } })).toContain(
      'No event in this case (answered in 1 of 1; next-day course known in 1).',
    );
    expect(said({ cases: 1, answered: 1, withNone: 1, nextDay: { known: 1, of: 1 } })).toContain(
      'with a true rate of 5 in 100, one case would pass without one more often than not.',
    );
    const some = { ...one, withNone: 17 };
    expect(said({ ...some, answered: 19 })).toContain(
      'Events were not answered in 1 of these 20 cases; nothing can be said about that one.',
    );
    expect(said({ ...some, answered: 18 })).toContain('nothing can be said about those.');
    const none1 = { taken: 0, of: 1, low: 0, high: 0.975 };
    expect(takeoverWords(none1, 'the step')).toBe('No takeover of the step is written down in this case.');
    expect(takeoverWords({ taken: 1, of: 20, low: 0.00126, high: 0.249 }, 'capsulorhexis')).toBe(
      'Capsulorhexis was taken over in 1 of 20 cases (the true share could be 0.1 to 25 in 100).',
    );
  });
  it('names what cannot be called safe', () => {
    expect(eventWords(none).sentences[0]).toContain('This cannot show that the step is safe:');
    expect(eventWords({ ...none, about: 'the operation is' }).sentences[0]).toContain(
      'This cannot show that the operation is safe:',
    );
  });
});

describe('whose cases', () => {
  it('says of a reference set that its cases are those of others', () => {
    expect(othersCases({ n: 24, readers: 3 })).toBe('24 cases of 3 other surgeons');
    expect(othersCases({ n: 12, readers: 1 })).toBe('12 cases of another surgeon');
  });
});
