import { startCaveatWords } from './caveats';
import { notUsedTogether } from './not-used';
import type { AimedEyes, Measure } from '../model';
import { paceWords } from './aimed';
import type { Interval } from '../audit';
import type { StartedGoal } from '../practice';
import { counted, inSentence, listed, prose, timesInTen } from '../format';

/** What a goal can be measured by, as it is offered. */
export const MEASURE_OPTIONS: Record<Measure, { label: string; hint: string }> = {
  time: {
    label: 'Time',
    hint: 'Does this step take less time than the rest of the same operations would lead you to expect?',
  },
  steadiness: {
    label: 'Steadiness',
    hint: 'Does this step vary less from case to case? Forty cases are the usual length for it.',
  },
  checkpoints: { label: 'Checkpoints', hint: 'What you did is the result. No change in time is claimed.' },
  safety: { label: 'Safety', hint: 'Events and protected parts. This goal has no time.' },
};

export const OWN_CHECKPOINT = 'Your own checkpoint.';

/** What opens the checkpoints that were not drawn up, and the field for one's own. */
export const moreCheckpoints = (more: number): string =>
  more > 0 ? `${counted(more, 'more checkpoint')}, or one of your own` : '';

export const SAME_REASON = 'For a reason given above.';

export const WATCH_LEAD =
  'These are never shortened and stand outside step time. A time goal needs at least one of them to watch: if it is seen less often, the result pauses.';

/** @param adjusted whether there was a fact of the eye to adjust by */
export const expectedRangeWords = ({ low, high }: Interval, adjusted: boolean): string =>
  `Expected range: ${prose(low)} to ${prose(high)}${adjusted ? ', adjusted for the eye' : ''}. It is shown on this page only. It is not for use in theatre, and no case needs to reach it.`;

/** Other goals that run, by the labels of their steps. */
export const otherGoalsWords = (steps: readonly string[]): string =>
  `${steps.length === 1 ? 'A goal' : 'Goals'} on ${listed(steps.map(inSentence))} ${steps.length === 1 ? 'is' : 'are'} running. A step under a goal does not count as the rest of the operation for another.`;

/** What starting today would fix; `codes`: a case's own code by its id; `since`: where a change under an earlier goal begins. */
export function startSentences(
  started: StartedGoal,
  codes: ReadonlyMap<string, string>,
  eyes: AimedEyes | null = null,
  since: string | null = null,
): string[] {
  const { caseIds } = started.baseline;
  const [first, last] = [caseIds[0], caseIds[caseIds.length - 1]].map((id) => (id ? (codes.get(id) ?? id) : ''));
  const lists = started.lists === null ? '' : `, from ${counted(started.lists, 'list')}`;
  return [
    caseIds.length === 0
      ? 'No case counts yet, so there are no baseline cases to start from.'
      : `${counted(caseIds.length, 'baseline case')}${lists}: first ${first}, latest ${last}. They are fixed the moment you set the goal; what you change in them later is shown, and never moves a result by itself.`,
    ...(since && caseIds.length > 0
      ? [
          `No case before ${since} is among them: the window of an earlier goal begins there, and its result says that this step changed.`,
        ]
      : []),
    ...(eyes && started.pace ? paceWords(started.pace, eyes) : []),
    ...notUsedTogether(started.caveats, startCaveatWords),
  ];
}

/** What twenty cases can show; in tenths with a range, or in three words where the start is short. */
export function powerSentences({ steer, fifth, tenth, coarse }: NonNullable<StartedGoal['power']>): string[] {
  if (coarse)
    return [
      `With fewer than 40 baseline cases this can only be said roughly. How likely it is to be shown: a fifth shorter in twenty cases, ${fifth.twenty.word}; in forty, ${fifth.forty.word}; a tenth shorter in twenty, ${tenth.twenty.word}. So "no clear change" will be common, even when something did change. You will have your own account of what you did in any case.`,
    ];
  const inTen = ({ low, high }: { low: number; high: number }) =>
    `${Math.round(low * 10)} to ${Math.round(high * 10)} times in 10`;
  return [
    powerWords({ twenty: fifth.twenty.chance, forty: fifth.forty.chance }, { twenty: tenth.twenty.chance }),
    `These chances are themselves only estimates: for a fifth in twenty cases, ${inTen(fifth.twenty)}.`,
    ...(steer
      ? [
          `Reaching the lower end of the expected range would be seen in twenty cases ${timesInTen(steer.twenty.chance)}, in forty ${timesInTen(steer.forty.chance)}.`,
        ]
      : []),
  ];
}

/** "Before the start": what twenty and forty cases can show. Chances 0..1. */
export function powerWords(fifth: { twenty: number; forty: number }, tenth: { twenty: number }): string {
  return (
    `If this step became a fifth shorter, twenty cases would show it ${timesInTen(fifth.twenty)}, forty ${timesInTen(fifth.forty)}. ` +
    `A tenth: ${timesInTen(tenth.twenty)}. So "no clear change" will be common, even when something did change. ` +
    'You will have your own account of what you did in any case.'
  );
}
