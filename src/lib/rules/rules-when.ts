import type { Pattern } from '../audit/types';
import { inSentence } from '../format';
import { shortRatio } from './plain-numbers';
import { eyeFitsOf } from './fits';
import { yes, type Rule } from './rule';
import { rulesThresholds } from './thresholds';
import type { StepFacts } from './types';

/** Patterns in which the step takes longer; what goes with a shorter time is not a reason to read anything. */
export const longerWith = ({ patterns }: StepFacts, kind: Pattern['kind']): Pattern[] =>
  patterns.filter((pattern) => pattern.kind === kind && pattern.ratio > 1);

/** Facts of the list (teaching, machine) are not facts of the eye. */
export const ofTheEye = (facts: StepFacts): Pattern[] =>
  longerWith(facts, 'fact').filter(({ factor }) => !factor.startsWith('list-'));

/** Facts of the list: anaesthesia, machine, teaching. */
const ofTheList = (facts: StepFacts): Pattern[] =>
  longerWith(facts, 'fact').filter(({ factor }) => factor.startsWith('list-'));

const inPlace = (facts: StepFacts, place: string): Pattern[] =>
  longerWith(facts, 'place').filter(({ factor }) => factor === place);

const placeWords = (facts: StepFacts, place: string, where: string): string =>
  said(inPlace(facts, place), (pattern) => `${where}, ${inSentence(facts.step.label)} takes ${size(pattern)}.`);

const strongest = (patterns: readonly Pattern[]) => Math.max(0, ...patterns.map(({ ratio }) => Math.log(ratio)));

export const size = ({ ratio, low, high }: Pick<Pattern, 'ratio' | 'low' | 'high'>) =>
  `about ${shortRatio(ratio)} times as long (${shortRatio(low)} to ${shortRatio(high)})`;

const first = (patterns: readonly Pattern[]) => [...patterns].sort((a, b) => b.ratio - a.ratio)[0];

function said(patterns: readonly Pattern[], words: (pattern: Pattern) => string): string {
  const pattern = first(patterns);
  return pattern ? words(pattern) : '';
}

/** Rules on when a step takes longer: which eyes, where in the list, after which step, since when. */
export const whenRules: readonly Rule[] = [
  {
    id: 'after-earlier',
    tier: 1,
    when: (facts) => strongest(longerWith(facts, 'earlier-step')),
    fits: ['after-earlier'],
    because: (facts) => said(longerWith(facts, 'earlier-step'), (pattern) => earlierBecause(facts, pattern)),
  },
  {
    id: 'certain-eyes',
    tier: 1,
    when: (facts) => strongest(ofTheEye(facts)),
    fits: ['hard-eyes'],
    sees: (facts) => [...ofTheEye(facts)].sort((a, b) => b.ratio - a.ratio).flatMap(({ factor }) => eyeFitsOf(factor)),
    reminders: [
      'The extra time in these eyes is well spent: prepare for them, and aim to do it the same way each time.',
    ],
    measures: ['steadiness'],
    because: (facts) =>
      said(
        ofTheEye(facts),
        (pattern) =>
          `${facts.step.label} takes ${size(pattern)} with ${pattern.label} (${pattern.nWith} eyes). That time is legitimate.`,
      ),
  },
  {
    id: 'late-in-list',
    tier: 1,
    when: (facts) => strongest(inPlace(facts, 'place-last-third')),
    fits: ['late-in-list'],
    reminders: ['Read the note once more before a long list begins: its last third asks most of you.'],
    because: (facts) => placeWords(facts, 'place-last-third', 'In the last third of the list'),
  },
  {
    id: 'first-on-list',
    tier: 1,
    when: (facts) => strongest(inPlace(facts, 'place-first')),
    fits: ['first-on-list'],
    reminders: ['Set chair, microscope, pedals and machine before the first case, and say so to the team.'],
    because: (facts) => placeWords(facts, 'place-first', 'As the first on the list'),
  },
  {
    id: 'circumstances',
    tier: 1,
    when: (facts) => strongest(ofTheList(facts)),
    fits: ['first-on-list', 'over-time'],
    because: (facts) =>
      said(
        ofTheList(facts),
        (pattern) =>
          `${facts.step.label} takes ${size(pattern)} with ${pattern.label} (${pattern.nWith} cases). Prepare for what is different there; the time itself is no fault.`,
      ),
  },
  {
    id: 'after-a-break',
    tier: 1,
    when: ({ breakWeeks }) => yes((breakWeeks ?? 0) >= rulesThresholds.breakWeeks, 0.15),
    fits: ['after-a-break'],
    because: ({ breakWeeks }) =>
      `Your latest list came ${breakWeeks} weeks after the one before it. After a break the first lists are for doing it as before, not for changing it.`,
  },
  {
    id: 'renewed',
    tier: 1,
    when: ({ renewed }) => yes(renewed !== null, renewed?.perCase ?? 0),
    fits: ['after-earlier', 'returned-to'],
    because: ({ renewed, labels, step }) => {
      const earlier = labels[renewed?.stepId ?? ''] ?? renewed?.stepId ?? 'an earlier step';
      return `${earlier} was returned to in ${renewed?.cases} of ${renewed?.of} cases, and ${inSentence(step.label)} builds on it. Look there first.`;
    },
  },
  {
    id: 'over-time',
    tier: 1,
    when: ({ step, patterns }) =>
      yes((step.overTime?.low ?? 0) > 1 || patterns.some(({ kind, ratio }) => kind === 'over-time' && ratio > 1), 0.2),
    fits: ['over-time'],
    because: ({ step }) =>
      `${step.label} has been taking longer over time${step.overTime ? `: about ${shortRatio(step.overTime.ratio)} times for every 20 cases` : ''}. What changed: machine, technique, teaching?`,
  },
  {
    id: 'two-humps',
    tier: 1,
    when: (facts) => strongest(longerWith(facts, 'bimodality')),
    fits: ['bimodality'],
    measures: ['steadiness'],
    because: (facts) =>
      said(
        longerWith(facts, 'bimodality'),
        (pattern) =>
          `${facts.step.label} shows ${pattern.label}: perhaps two techniques are in use. Choose between them deliberately.`,
      ),
  },
];

/** Points to the earlier step, and says that it is an association. */
export function earlierBecause({ step, labels }: StepFacts, pattern: Pattern): string {
  const earlier = inSentence(labels[pattern.earlierStepId ?? ''] ?? pattern.earlierStepId ?? 'an earlier step');
  return `After a long ${earlier}, ${inSentence(step.label)} takes ${size(pattern)}. The two go together; this does not show that one causes the other. Look at ${earlier} first.`;
}
