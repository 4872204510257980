import { inSentence } from '../format';
import { ofHundred, othersCases, shortRatio, shortSeconds } from './plain-numbers';
import { yes, type Rule } from './rule';
import { rulesThresholds } from './thresholds';
import type { StepFacts } from './types';

const varies = ({ step }: StepFacts) => step.spread !== null && step.spread >= rulesThresholds.variesMuch;

const waitsLong = ({ step, waitingCases }: StepFacts) =>
  step.median !== null &&
  waitingCases >= rulesThresholds.waitingCases &&
  step.waitingPerCase >= rulesThresholds.waitingShare * step.median;

const isLonger = ({ step }: StepFacts) =>
  (step.reference !== null && step.reference.low > 1) || (step.first.seconds ?? 0) >= rulesThresholds.level;

/** Rules on what a step looks like: returned to, spread, waiting, simply longer. */
export const whatRules: readonly Rule[] = [
  {
    id: 'returned-to',
    tier: 1,
    when: ({ step }) =>
      yes((step.returnedTo?.perCase ?? 0) >= rulesThresholds.returnsOften, step.returnedTo?.perCase ?? 0),
    fits: ['returned-to'],
    because: ({ step }) =>
      `${step.label} was returned to in ${step.returnedTo?.cases} of ${step.returnedTo?.of} cases: the end point was often not reached the first time.`,
  },
  {
    id: 'mostly-waiting',
    tier: 2,
    when: (facts) => yes(waitsLong(facts), 0.5),
    fits: ['waiting'],
    reminders: ['Waiting is not a fault, and part of it is checking.'],
    because: ({ step, waitingCases }) =>
      `Waiting at ${inSentence(step.label)} takes ${shortSeconds(step.waitingPerCase)} a case${step.waitingReason ? `, most of it ${inSentence(step.waitingReason)}` : ''} (noted in ${waitingCases} cases): a matter for the team.`,
  },
  {
    id: 'varies',
    tier: 2,
    when: (facts) => yes(varies(facts) && facts.shorterFifthClean !== false, Math.log(facts.step.spread ?? 1)),
    fits: ['varies'],
    measures: ['steadiness'],
    because: ({ step, shorterFifthClean }) => {
      const range = step.twoThirds;
      const between = range
        ? `two thirds of cases between ${shortSeconds(range.low)} and ${shortSeconds(range.high)}`
        : 'much';
      return shorterFifthClean
        ? `${step.label} varies (${between}), and your shortest fifth had no event and every protected part. What differs in the set-up?`
        : `${step.label} varies (${between}). Whether your shortest fifth left anything out is not known: look at that first.`;
    },
  },
  {
    id: 'longer',
    tier: 2,
    when: (facts) => yes(isLonger(facts), 0.1),
    fits: ['longer'],
    measures: ['time'],
    because: ({ step }) =>
      step.reference && step.reference.low > 1
        ? `${step.label} takes about ${shortRatio(step.reference.ratio)} times as long as in the reference set (${shortRatio(step.reference.low)} to ${shortRatio(step.reference.high)}; ${othersCases(step.reference)}). Watch a shorter and a longer case.`
        : `${step.label} holds the most seconds between your median and your 20th percentile in ${ofHundred(step.first.seconds ?? 0)} resamples. Watch a shorter and a longer case.`,
  },
];
