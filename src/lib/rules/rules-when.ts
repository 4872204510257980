import { clearTrend } from '../audit';
import type { Pattern } from '../audit/types';
import { roundsToOne } from '../format';
import { eyeFitsOf } from './fits';
import type { ReasonOf } from './reasons';
import { yes, type Rule } from './rule';
import { rulesThresholds } from './thresholds';
import type { StepFacts } from './types';

/** Patterns in which the step takes longer; what goes with a shorter time is not a reason to read anything. */
export const longerWith = ({ patterns }: StepFacts, kind: Pattern['kind']): Pattern[] =>
  patterns.filter((pattern) => pattern.kind === kind && pattern.ratio > 1 && !roundsToOne(pattern.ratio));

/** Facts of the list (teaching, machine) are not facts of the eye. */
export const ofTheEye = (facts: StepFacts): Pattern[] =>
  longerWith(facts, 'fact').filter(({ factor }) => !factor.startsWith('list-'));

/** Facts of the list: anaesthesia, machine, teaching. */
const ofTheList = (facts: StepFacts): Pattern[] =>
  longerWith(facts, 'fact').filter(({ factor }) => factor.startsWith('list-'));

const inPlace = (facts: StepFacts, place: string): Pattern[] =>
  longerWith(facts, 'place').filter(({ factor }) => factor === place);

const strongest = (patterns: readonly Pattern[]) => Math.max(0, ...patterns.map(({ ratio }) => Math.log(ratio)));

const times = ({ ratio, low, high }: Pattern) => ({ ratio, low, high });

/** The reason of the pattern with the largest ratio; `null` where there is none. */
function ofLargest<Reason>(patterns: readonly Pattern[], reason: (pattern: Pattern) => Reason): Reason | null {
  const [largest] = [...patterns].sort((a, b) => b.ratio - a.ratio);
  return largest ? reason(largest) : null;
}

/** Rules on when a step takes longer: which eyes, where in the list, after which step, since when. */
export const whenRules: readonly Rule[] = [
  {
    id: 'after-earlier',
    tier: 1,
    when: (facts) => strongest(longerWith(facts, 'earlier-step')),
    fits: ['after-earlier'],
    because: (facts) => ofLargest(longerWith(facts, 'earlier-step'), (pattern) => afterEarlier(facts, pattern)),
  },
  {
    id: 'certain-eyes',
    tier: 1,
    when: (facts) => strongest(ofTheEye(facts)),
    fits: ['hard-eyes'],
    sees: (facts) => [...ofTheEye(facts)].sort((a, b) => b.ratio - a.ratio).flatMap(({ factor }) => eyeFitsOf(factor)),
    measures: ['steadiness'],
    because: (facts) =>
      ofLargest(ofTheEye(facts), (pattern) => ({
        code: 'certain-eyes',
        stepId: facts.step.stepId,
        label: pattern.label,
        numbers: { ...times(pattern), nWith: pattern.nWith },
      })),
  },
  {
    id: 'late-in-list',
    tier: 1,
    when: (facts) => strongest(inPlace(facts, 'place-last-third')),
    fits: ['late-in-list'],
    because: (facts) =>
      ofLargest(inPlace(facts, 'place-last-third'), (pattern) => ({
        code: 'late-in-list',
        stepId: facts.step.stepId,
        numbers: times(pattern),
      })),
  },
  {
    id: 'first-on-list',
    tier: 1,
    when: (facts) => strongest(inPlace(facts, 'place-first')),
    fits: ['first-on-list'],
    because: (facts) =>
      ofLargest(inPlace(facts, 'place-first'), (pattern) => ({
        code: 'first-on-list',
        stepId: facts.step.stepId,
        numbers: times(pattern),
      })),
  },
  {
    id: 'circumstances',
    tier: 1,
    when: (facts) => strongest(ofTheList(facts)),
    fits: ['first-on-list', 'over-time'],
    because: (facts) =>
      ofLargest(ofTheList(facts), (pattern) => ({
        code: 'circumstances',
        stepId: facts.step.stepId,
        label: pattern.label,
        numbers: { ...times(pattern), nWith: pattern.nWith },
      })),
  },
  {
    id: 'after-a-break',
    tier: 1,
    when: ({ breakWeeks }) => yes((breakWeeks ?? 0) >= rulesThresholds.breakWeeks, 0.15),
    fits: ['after-a-break'],
    because: ({ breakWeeks }) => ({ code: 'after-a-break', numbers: { weeks: breakWeeks ?? 0 } }),
  },
  {
    id: 'renewed',
    tier: 1,
    when: ({ renewed }) => yes(renewed !== null, renewed?.perCase ?? 0),
    fits: ['after-earlier', 'returned-to'],
    because: ({ renewed, step }) =>
      renewed && {
        code: 'renewed',
        stepId: step.stepId,
        earlierStepId: renewed.stepId,
        numbers: { cases: renewed.cases, of: renewed.of },
      },
  },
  {
    id: 'over-time',
    tier: 1,
    when: (facts) => strongest(longer(facts)),
    fits: ['over-time'],
    because: (facts) =>
      ofLargest(longer(facts), (pattern) => ({
        code: 'over-time',
        stepId: facts.step.stepId,
        label: pattern.label,
        numbers: times(pattern),
      })),
  },
  {
    id: 'bimodality',
    tier: 1,
    when: (facts) => strongest(longerWith(facts, 'bimodality')),
    fits: ['bimodality'],
    measures: ['steadiness'],
    because: (facts) =>
      ofLargest(longerWith(facts, 'bimodality'), ({ label }) => ({
        code: 'bimodality',
        stepId: facts.step.stepId,
        label,
        numbers: {},
      })),
  },
];

/** A rise over time that is clear. */
const longer = ({ patterns, step }: StepFacts): Pattern[] =>
  [clearTrend(patterns, step.stepId)].filter((trend) => trend !== null).filter(({ ratio }) => ratio > 1);

/** Points to the earlier step: an association, never a cause. */
export function afterEarlier({ step }: StepFacts, pattern: Pattern): ReasonOf<'after-earlier'> {
  const { earlierStepId } = pattern;
  return { code: 'after-earlier', stepId: step.stepId, earlierStepId, numbers: times(pattern) };
}
