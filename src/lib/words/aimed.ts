import type { AimedEyes, AimedOutcome } from '../model';
import { counted, lessOrMore, rangeOfRatios } from '../format';
import { practiceThresholds, type Pace } from '../practice';

/** How long the window of a goal aimed at certain eyes will take, at the rate of the latest lists; a warning beyond half a year. */
export function paceWords({ such, of, lists, days, length }: Pace, { label }: AimedEyes): string[] {
  const rate = `Of the ${counted(of, 'case')} counted since the first baseline case, ${such} had ${label}.`;
  if (lists === null) return [`${rate} How long the next ${lengthWords(length)} of them will take cannot be said.`];
  const time = days === null ? '' : `, about ${timeWords(days)}`;
  const long = days !== null && days > practiceThresholds.longWindowDays;
  return [
    `${rate} At this rate the next ${lengthWords(length)} of them take about ${counted(lists, 'list')}${time}.`,
    ...(long
      ? [
          'That is more than half a year: much else changes in that time. A goal on checkpoints, or on all eyes, answers sooner.',
        ]
      : []),
  ];
}

const lengthWords = (length: number) => (length === 40 ? 'forty' : 'twenty');
const timeWords = (days: number) =>
  days < 60 ? counted(Math.max(1, Math.round(days / 7)), 'week') : counted(Math.round(days / 30.4), 'month');

/** What the plan says of an aimed goal beside what it starts from. */
export const aimedPlanWords = ({ label }: AimedEyes): string[] => [
  `This goal is aimed at eyes with ${label}: baseline cases, window and result are formed from those cases alone. Safety is asked of every case in that time.`,
  `Enter the fact before a case's times are seen. ${SEVERITY}`,
];

const SEVERITY =
  'How severe these eyes are is not recorded: milder ones in the window would look just like a shorter step.';

/** Beside the result of an aimed goal: how often such eyes came, late changes of the fact, the other eyes. */
export function aimedWords(aimed: AimedOutcome): string[] {
  const { eyes, baseline, window, excess, withoutExcess, changedLate, otherEyes } = aimed;
  const shares = `${window.such} of ${counted(window.of, 'case')} in the window, ${baseline.such} of ${baseline.of} before`;
  const [ratio, low, high] = otherEyes
    ? ([otherEyes.estimate, otherEyes.low, otherEyes.high].map(Math.exp) as [number, number, number])
    : [NaN, NaN, NaN];
  return [
    `Only eyes with ${eyes.label} are in this result. ${SEVERITY}`,
    ...(excess > 0
      ? [
          `They were clearly more frequent in the window (${shares}): a fact called more freely brings easier eyes among them.`,
        ]
      : []),
    ...(withoutExcess
      ? [
          `With all of them it would have been shorter; without the ${counted(excess, 'shortest case')}, as many as came beyond the share before, it is not, and the figures are without them.`,
        ]
      : []),
    ...(changedLate > 0
      ? [
          `In ${counted(changedLate, 'case')} of the start or the window this fact was changed after ${changedLate === 1 ? 'its' : 'their'} times were seen.`,
        ]
      : []),
    ...(otherEyes
      ? [
          `In the other eyes of the same time the step took about ${lessOrMore(ratio)} time against the rest (${rangeOfRatios(low, high)}); they enter nothing above.`,
        ]
      : []),
  ];
}

/** The fact a goal is aimed by was taken out of the procedure after the goal was set. */
export const aimedRetiredWords = (label: string): string =>
  `The fact behind "${label}" is no longer asked for in this procedure, so new cases cannot be told apart and the window cannot fill. Bring it back in Settings, or move on; what is here stays.`;

/** An aimed goal whose window has not filled in a year. */
export const slowWindowWords = (label: string, so: number, need: number): string =>
  `More than a year after the goal was set, ${so} of ${need} cases with ${label} have come. A result this late would have many reasons. Move on, or aim a goal at more eyes; what you did stands.`;
