import { describe, expect, it } from 'vitest';
import { rules, type GivenReason, type Rule, type SuggestionReason } from '../../../src/lib/rules';
import { PATTERN_FITS } from '../../../src/lib/rules/fits';
import { draftReminders, planReasonWords, suggestionReasonWords } from '../../../src/lib/words';

const labelOf = (id: string) => ({ rhexis: 'Rhexis', 'ovd-fill': 'OVD fill' })[id] ?? id;
const stepId = 'rhexis';
const times = { ratio: 1.4, low: 1.2, high: 1.7 };
const reference = { ...times, n: 24, readers: 2 };
const range = { low: 40, high: 90 };

/** One of each: a code without its example, or an example without its numbers, does not compile. */
const OF_SUGGESTION: { [Code in SuggestionReason['code']]: Extract<SuggestionReason, { code: Code }> } = {
  'serious-unreviewed': { code: 'serious-unreviewed', stepId, numbers: { events: 1 } },
  'serious-tied': { code: 'serious-tied', stepId, numbers: { events: 2 } },
  'unreviewed-elsewhere': { code: 'unreviewed-elsewhere', numbers: { events: 3 } },
  monitor: { code: 'monitor', numbers: {} },
  'not-enough': { code: 'not-enough', numbers: { cases: 9, moreCases: 11, moreLists: 0 } },
  waiting: { code: 'waiting', waitingReason: 'Lens loading', numbers: { perCase: 41 } },
  'held-back': { code: 'held-back', stepId, kind: 'posterior capsule tear', numbers: { casesAgo: 12, more: 28 } },
  'first-too-seldom': { code: 'first-too-seldom', stepId, view: 'spread', numbers: { share: 0.31 } },
  seconds: { code: 'seconds', stepId, alone: true, sameEyes: true, numbers: { seconds: 12, range } },
  spread: { code: 'spread', stepId, alone: false, numbers: { twoThirds: range } },
  reference: { code: 'reference', stepId, numbers: reference },
  'came-first': { code: 'came-first', stepId, resampled: 'cases', numbers: { share: 0.97 } },
  'came-first-elsewhere': { code: 'came-first-elsewhere', stepId, view: 'reference', numbers: { share: 0.25 } },
};

const OF_PLAN: { [Code in GivenReason['code']]: Extract<GivenReason, { code: Code }> } = {
  'aimed-eyes': { code: 'aimed-eyes', stepId, label: 'pupil small', numbers: {} },
  event: { code: 'event', stepId, numbers: { unreviewed: 0, last100: 2 } },
  'event-recent': { code: 'event-recent', stepId, numbers: { casesAgo: 12, quietFor: 40 } },
  hasty: { code: 'hasty', stepId, cases: [{ code: 'V7', event: true, notSeen: [] }], numbers: {} },
  'protected-parts': { code: 'protected-parts', missed: [{ label: 'Refill', seen: 12, looked: 20 }], numbers: {} },
  'taken-over': { code: 'taken-over', stepId, numbers: { takenOver: 2, cases: 60 } },
  'not-to-shorten': { code: 'not-to-shorten', stepId, numbers: {} },
  'after-earlier': { code: 'after-earlier', stepId, earlierStepId: 'ovd-fill', numbers: times },
  'certain-eyes': { code: 'certain-eyes', stepId, label: 'nucleus hard', numbers: { ...times, nWith: 9 } },
  circumstances: { code: 'circumstances', stepId, label: 'teaching', numbers: { ...times, nWith: 9 } },
  'late-in-list': { code: 'late-in-list', stepId, numbers: times },
  'first-on-list': { code: 'first-on-list', stepId, numbers: times },
  'after-a-break': { code: 'after-a-break', numbers: { weeks: 9 } },
  renewed: { code: 'renewed', stepId, earlierStepId: 'ovd-fill', numbers: { cases: 13, of: 44 } },
  'over-time': {
    code: 'over-time',
    stepId,
    label: 'from the first to the latest of these 48 cases',
    numbers: { ratio: 1.3, low: 1.1, high: 1.6 },
  },
  bimodality: { code: 'bimodality', stepId, label: 'two groups of times', numbers: {} },
  'returned-to': { code: 'returned-to', stepId, numbers: { cases: 13, of: 44 } },
  'mostly-waiting': { code: 'mostly-waiting', stepId, waitingReason: null, numbers: { perCase: 30, cases: 25 } },
  varies: { code: 'varies', stepId, shorterFifthClean: true, numbers: { twoThirds: range } },
  longer: { code: 'longer', stepId, numbers: { share: 0.4, reference } },
  'any-case': { code: 'any-case', stepId, numbers: {} },
  'off-the-patient': { code: 'off-the-patient', stepId, numbers: {} },
  pair: { code: 'pair', shorter: 'V12', longer: 'V31', numbers: {} },
};
const said = [
  ...Object.values(OF_SUGGESTION).map((reason) => suggestionReasonWords(reason, labelOf)),
  ...Object.values(OF_PLAN).map((reason) => planReasonWords(reason, labelOf)),
];

describe('every reason', () => {
  it('is said in whole sentences of its own', () => {
    expect(new Set(said).size).toBe(Object.keys(OF_SUGGESTION).length + Object.keys(OF_PLAN).length);
    for (const sentence of said) expect(sentence).toMatch(/^[A-Z0-9].*[.?]$/);
    expect(said.join(' ')).not.toMatch(/undefined|null|NaN|\[object/);
  });

  it('carries every number it is given into its sentence', () => {
    const lost = [...Object.values(OF_SUGGESTION), ...Object.values(OF_PLAN)].flatMap(({ code, numbers }, place) =>
      Object.entries(numbers).flatMap(([name, value]) => {
        if (typeof value !== 'number' || value === 0 || (code === 'longer' && name === 'share')) return [];
        const shown = value < 1 && name === 'share' ? `${Math.round(value * 100)} of 100` : String(value);
        return said[place]?.includes(shown) ? [] : [`${code}: ${name}`];
      }),
    );
    expect(lost).toEqual([]);
  });

  it('of a plan is the reason of one rule, and every rule has one', () => {
    const beside: string[] = ['aimed-eyes', 'any-case', 'off-the-patient', 'pair'];
    expect(rules.map(({ id }) => id as string).sort()).toEqual(
      Object.keys(OF_PLAN)
        .filter((code) => !beside.includes(code))
        .sort(),
    );
  });
});

describe('reminders of a draft', () => {
  it('are those of the page, then those of its reasons, each once', () => {
    const because = [OF_PLAN['mostly-waiting'], OF_PLAN['taken-over'], OF_PLAN['mostly-waiting']];
    expect(draftReminders({ reminders: ['Look twice.', 'Look twice.'], because })).toEqual([
      'Look twice.',
      'Waiting is not a fault, and part of it is checking.',
      'Agree before the list at which sign this step is handed over, and who says so.',
    ]);
  });
});

describe('what a rule gives', () => {
  it('names patterns of the one list, and every pattern of it has its rule', () => {
    // @ts-expect-error a pattern that is not in the list does not compile
    const slip: Rule['fits'] = ['longr'];
    expect(PATTERN_FITS).not.toContain(slip[0]);
    expect([...new Set(rules.flatMap(({ fits }) => fits))].sort()).toEqual([...PATTERN_FITS].sort());
  });

  it('cannot hand over the reason of another rule', () => {
    const other: Pick<Extract<Rule, { id: 'hasty' }>, 'because'> = {
      // @ts-expect-error a rule with another's reason does not compile
      because: () => OF_PLAN['not-to-shorten'],
    };
    expect(Object.keys(other)).toEqual(['because']);
  });
});
