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
    measures: ['safety'],
    never: ['time', 'steadiness', 'checkpoints'],
    because: ({ step, safety }) => ({
      code: 'event',
      stepId: step.stepId,
      numbers: { unreviewed: safety.seriousUnreviewed, last100: safety.seriousLast100 },
    }),
  },
  {
    id: 'event-recent',
    tier: 0,
    when: (facts) => yes(!isSafetyGoal(facts) && isQuiet(facts), 3),
    fits: ['protected-parts'],
    sees: eventsOf,
    measures: ['checkpoints', 'safety'],
    never: ['time'],
    because: ({ step, safety }) => ({
      code: 'event-recent',
      stepId: step.stepId,
      numbers: { casesAgo: safety.casesSinceLatest ?? 0, quietFor: rulesThresholds.quietAfterEvent },
    }),
  },
  {
    id: 'hasty',
    tier: 0,
    when: ({ shorterFifthClean }) => yes(shorterFifthClean === false, 2.5),
    fits: ['protected-parts'],
    sees: ({ protectedParts }) =>
      protectedParts.filter(({ seen, looked }) => seen < looked).map(({ id }) => `part:${id}` as const),
    measures: ['checkpoints'],
    because: ({ step, shorterFifthMissed }) => ({
      code: 'hasty',
      stepId: step.stepId,
      cases: shorterFifthMissed,
      numbers: {},
    }),
  },
  {
    id: 'protected-parts',
    tier: 0,
    when: (facts) => yes(missed(facts).length > 0, 2),
    fits: ['protected-parts'],
    sees: (facts) => missed(facts).map(({ id }) => `part:${id}` as const),
    measures: ['checkpoints'],
    because: (facts) => ({
      code: 'protected-parts',
      missed: missed(facts).map(({ label, seen, looked }) => ({ label, seen, looked })),
      numbers: {},
    }),
  },
  {
    id: 'taken-over',
    tier: 0,
    when: ({ takenOver }) => yes(takenOver >= rulesThresholds.takenOver, 1.5),
    fits: ['returned-to', 'protected-parts'],
    measures: ['checkpoints'],
    because: ({ step, takenOver, cases }) => ({
      code: 'taken-over',
      stepId: step.stepId,
      numbers: { takenOver, cases },
    }),
  },
  {
    id: 'not-to-shorten',
    tier: 0,
    when: ({ step }) => yes(step.notToShorten),
    fits: ['varies'],
    measures: ['steadiness', 'checkpoints'],
    never: ['time'],
    because: ({ step }) => ({ code: 'not-to-shorten', stepId: step.stepId, numbers: {} }),
  },
];
