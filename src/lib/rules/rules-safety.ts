import { inSentence } from '../format';
import { listed } from './plain-numbers';
import { yes, type Rule } from './rule';
import { rulesThresholds } from './thresholds';
import type { StepFacts } from './types';

const missed = ({ protectedParts }: StepFacts) =>
  protectedParts.filter(
    ({ seen, looked }) =>
      looked >= rulesThresholds.protectedPartLooked && seen < rulesThresholds.protectedPartShare * looked,
  );

const isSafetyGoal = ({ safety }: StepFacts) =>
  safety.seriousUnreviewed > 0 || safety.seriousLast100 >= rulesThresholds.seriousTied;

const isQuiet = ({ safety }: StepFacts) =>
  safety.casesSinceLatest !== null && safety.casesSinceLatest < rulesThresholds.quietAfterEvent;

const eventsOf = ({ safety }: StepFacts) => safety.kinds.map((kind) => `event:${kind}` as const);

/** Rules that stand before all others: events, protected parts, steps not to be shortened. */
export const safetyRules: readonly Rule[] = [
  {
    id: 'event',
    tier: 0,
    when: (facts) => yes(isSafetyGoal(facts), 3),
    fits: ['protected-parts'],
    sees: eventsOf,
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
    sees: eventsOf,
    measures: ['checkpoints', 'safety'],
    never: ['time'],
    because: ({ step, safety }) =>
      `An event or near miss at ${inSentence(step.label)} is ${safety.casesSinceLatest} cases ago: no time in the plan for ${rulesThresholds.quietAfterEvent} cases.`,
  },
  {
    id: 'hasty',
    tier: 0,
    when: ({ shorterFifthClean }) => yes(shorterFifthClean === false, 2.5),
    fits: ['protected-parts'],
    sees: ({ protectedParts }) =>
      protectedParts.filter(({ seen, looked }) => seen < looked).map(({ id }) => `part:${id}` as const),
    measures: ['checkpoints'],
    because: ({ step }) =>
      `Among your shortest fifth at ${inSentence(step.label)} a case had an event, or a protected part was not seen. Look at these cases first, before anything else here.`,
  },
  {
    id: 'kept-parts',
    tier: 0,
    when: (facts) => yes(missed(facts).length > 0, 2),
    fits: ['protected-parts'],
    sees: (facts) => missed(facts).map(({ id }) => `part:${id}` as const),
    measures: ['checkpoints'],
    because: (facts) =>
      `${listed(missed(facts).map(({ label, seen, looked }) => `${label}: seen in ${seen} of ${looked} cases`))}. These come first.`,
  },
  {
    id: 'taken-over',
    tier: 0,
    when: ({ takenOver }) => yes(takenOver >= rulesThresholds.takenOver, 1.5),
    fits: ['returned-to', 'protected-parts'],
    reminders: ['Agree before the list at which sign this step is handed over, and who says so.'],
    measures: ['checkpoints'],
    because: ({ step, takenOver, cases }) =>
      `${step.label} was taken over in ${takenOver} of ${cases} cases. What the last sign before it was, two recordings will show.`,
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
