import type { Audit, DifferenceCannot, Enough } from '../audit';
import { capital, counted, inSentence, listed } from '../format';

/** How many more cases and lists a suggestion needs. */
export function neededWords(enough: Enough): string {
  const more = [
    ...(enough.moreCases > 0 ? [counted(enough.moreCases, 'more case')] : []),
    ...(enough.moreLists > 0 ? [counted(enough.moreLists, 'more list')] : []),
  ];
  return [
    `${counted(enough.cases, 'case')} ${enough.cases === 1 ? 'counts' : 'count'}.`,
    ...(enough.cases === 0
      ? ['A case counts if at least one step you did yourself was timed, unless the case is left out.']
      : []),
    enough.lists === null
      ? 'A suggestion needs 30 cases. Lists are not known, so neighbouring rows are treated as one list.'
      : 'A suggestion needs 20 from at least 4 lists.',
    ...(more.length > 0 ? [`${capital(listed(more))} will do.`] : []),
  ].join(' ');
}

/** The same where the times stand beside it. */
export const enoughWords = (enough: Enough): string =>
  `${neededWords(enough)} Your times are shown as they are; please read nothing into their order.`;

/** Why a step with enough cases has no difference: its times are all equal, or whole seconds are too coarse for it. */
const ALIKE: ReadonlySet<DifferenceCannot['code']> = new Set(['all-equal', 'whole-seconds']);

/** That nothing stands out is an answer; that nothing can be compared is another. */
export function nothingWords({ steps }: Pick<Audit, 'steps'>): { head: string; sentence: string } {
  const timed = steps.filter(({ n }) => n > 0);
  if (timed.length === 1)
    return {
      head: 'Only one step is timed.',
      sentence: 'There is only one step to look at, so none can be compared with another. You can still choose it.',
    };
  const head = 'No step stands out.';
  if (timed.every(({ difference }) => !difference))
    return {
      head,
      sentence:
        'These times hardly vary, so nothing can be said about which step to look at. Were they rounded, or copied?',
    };
  const alike = timed.filter(({ differenceCannot: cannot }) => cannot && ALIKE.has(cannot.code));
  if (alike.length > 0 && timed.length - alike.length < 2)
    return {
      head,
      sentence: `The times of ${listed(alike.map(({ label }) => inSentence(label)))} are too similar to compare a step with them. Were they rounded, or copied? You can still choose one.`,
    };
  if (timed.every(({ first }) => first.seconds === null && first.spread === null && first.reference === null))
    return {
      head,
      sentence: 'No two steps were timed in enough cases to be compared with each other. You can still choose one.',
    };
  return {
    head,
    sentence:
      'Your steps vary about as much as each other. A month without a goal is a good answer. You can still choose one.',
  };
}
