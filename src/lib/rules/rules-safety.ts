import { inSentence } from '../format';
import { listed } from './plain-numbers';
import { yes, type Rule } from './rule';
import { rulesThresholds } from './thresholds';
import type { StepFacts } from './types';

const missed = ({ keptParts }: StepFacts) =>
  keptParts.filter(
    ({ seen, looked }) => looked >= rulesThresholds.keptPartLooked && seen < rulesThresholds.keptPartShare * looked,
  );

const isSafetyGoal = ({ safety }: StepFacts) =>
  safety.seriousUnreviewed > 0 || safety.seriousLast100 >= rulesThresholds.seriousTied;

const isQuiet = ({ safety }: StepFacts) =>
  safety.casesSinceLatest !== null && safety.casesSinceLatest < rulesThresholds.quietAfterEvent;

/** Rules that stand before all others: events, kept parts, steps not to be shortened. */
export const safetyRules: readonly Rule[] = [
  {
    id: 'event',
    tier: 0,
    when: (facts) => yes(isSafetyGoal(facts), 3),
    fits: ['protected-parts'],
    reminders: ['Look at the case with a senior colleague before you plan anything else on this step.'],
    measures: ['safety'],
    never: ['time', 'steadiness', 'checkpoints'],
    because: ({ step, safety }) =>
      safety.seriousUnreviewed > 0
        ? `A serious event at ${inSentence(step.label)} waits for review. Until then the plan has no time in it.`
        : `${safety.seriousLast100} serious events at ${inSentence(step.label)} in the last 100 answered cases. The plan has no time in it.`,
  },
  {
    id: 'event-recent',
    tier: 0,
    when: (facts) => yes(!isSafetyGoal(facts) && isQuiet(facts), 3),
    fits: ['protected-parts'],
    measures: ['checkpoints', 'safety'],
    never: ['time'],
    because: ({ step, safety }) =>
      `An event or near miss at ${inSentence(step.label)} is ${safety.casesSinceLatest} cases ago: no time in the plan for ${rulesThresholds.quietAfterEvent} cases.`,
  },
  {
    id: 'kept-parts',
    tier: 0,
    when: (facts) => yes(missed(facts).length > 0, 2),
    fits: ['protected-parts'],
    measures: ['checkpoints'],
    because: (facts) =>
      `${listed(missed(facts).map(({ label, seen, looked }) => `${label}: seen in ${seen} of ${looked} cases`))}. These come first.`,
  },
  {
    id: 'not-to-shorten',
    tier: 0,
    when: ({ step }) => yes(step.notToShorten),
    fits: ['varies'],
    measures: ['steadiness', 'checkpoints'],
    never: ['time'],
    because: ({ step }) => `${step.label} is not to be shortened. You can look at doing it the same way each time.`,
  },
];
