import { againstReference } from './reasons';
import { yes, type Rule } from './rule';
import { rulesThresholds } from './thresholds';
import type { StepFacts } from './types';

const varies = ({ step }: StepFacts) => step.spread !== null && step.spread >= rulesThresholds.variesMuch;

const waitsLong = ({ step, waitingCases }: StepFacts) =>
  step.median !== null &&
  waitingCases >= rulesThresholds.waitingCases &&
  step.waitingPerCase >= rulesThresholds.waitingShare * step.median;

/** The reference set where the step takes clearly longer than in it. */
const longerThan = ({ step: { reference } }: StepFacts) => (reference && reference.low > 1 ? reference : null);

const isLonger = (facts: StepFacts) =>
  longerThan(facts) !== null || (facts.step.first.seconds ?? 0) >= rulesThresholds.level;

/** Rules on what a step looks like: returned to, spread, waiting, simply longer. */
export const whatRules: readonly Rule[] = [
  {
    id: 'returned-to',
    tier: 1,
    when: ({ step }) =>
      yes((step.returnedTo?.perCase ?? 0) >= rulesThresholds.returnsOften, step.returnedTo?.perCase ?? 0),
    fits: ['returned-to'],
    because: ({ step }) =>
      step.returnedTo && {
        code: 'returned-to',
        stepId: step.stepId,
        numbers: { cases: step.returnedTo.cases, of: step.returnedTo.of },
      },
  },
  {
    id: 'mostly-waiting',
    tier: 2,
    when: (facts) => yes(waitsLong(facts), 0.5),
    fits: ['waiting'],
    because: ({ step, waitingCases }) => ({
      code: 'mostly-waiting',
      stepId: step.stepId,
      waitingReason: step.waitingReason,
      numbers: { perCase: step.waitingPerCase, cases: waitingCases },
    }),
  },
  {
    id: 'varies',
    tier: 2,
    when: (facts) => yes(varies(facts) && facts.shorterFifthClean !== false, Math.log(facts.step.spread ?? 1)),
    fits: ['varies'],
    measures: ['steadiness'],
    because: ({ step, shorterFifthClean }) => ({
      code: 'varies',
      stepId: step.stepId,
      shorterFifthClean,
      numbers: { twoThirds: step.twoThirds },
    }),
  },
  {
    id: 'longer',
    tier: 2,
    when: (facts) => yes(isLonger(facts), 0.1),
    fits: ['longer'],
    measures: ['time'],
    because: (facts) => ({
      code: 'longer',
      stepId: facts.step.stepId,
      numbers: { share: facts.step.first.seconds ?? 0, reference: againstReference(longerThan(facts)) },
    }),
  },
];
