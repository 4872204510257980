import type { Case, CheckpointAnswer, Goal, Procedure, Reflection } from '../../model';

/** A row of the drawing of what was done or seen: structural, so that charts and core know nothing of each other. */
export type CellRowView = {
  id: string;
  label: string;
  cells: {
    kind: 'filled' | 'half' | 'open' | 'dot' | 'event' | 'not-answered' | 'blank';
    say: string;
    /** The same in two parts, for a table: which case, and what about it. */
    of: string;
    is: string;
  }[];
  words: string;
};

const CELL = { done: 'filled', partly: 'half', not: 'open', 'did-not-arise': 'dot' } as const;
const SAID: Record<CheckpointAnswer, string> = {
  done: 'done',
  partly: 'partly',
  not: 'not',
  'did-not-arise': 'does not apply',
};

/** An answer, and whether the times, or the result, had been known before it was given. */
type Given = { answer: CheckpointAnswer; afterLengths: boolean; afterResult: boolean };

/** The latest answer (notes come in the order in which they were written) to a checkpoint in a case, with what was known before it was given. */
export function latestAnswers(goalId: string, reflections: readonly Reflection[]): Map<string, Given> {
  const answers = new Map<string, Given>();
  for (const { answers: given, beforeLengths, resultKnown = false } of reflections.filter(
    (each) => each.goalId === goalId,
  ))
    for (const { caseId, checkpointId, answer } of given)
      answers.set(`${caseId} ${checkpointId}`, { answer, afterLengths: !beforeLengths, afterResult: resultKnown });
  return answers;
}

/**
 * Protected parts seen, from the case and from reflections on it; a reflection, written while looking, comes last. The
 * gate reads cases, so a case that enters a result is passed on in this form.
 */
export function withProtectedSeen(cases: readonly Case[], reflections: readonly Reflection[]): Case[] {
  const seen = new Map<string, Record<string, boolean>>();
  for (const { protectedSeen } of reflections)
    for (const each of protectedSeen)
      seen.set(each.caseId, { ...seen.get(each.caseId), [each.protectedPartId]: each.seen });
  return cases.map((each) => {
    const more = seen.get(each.id);
    return more ? { ...each, protectedSeen: { ...each.protectedSeen, ...more } } : each;
  });
}

/** A row a checkpoint, a cell a case; protected parts last. `window`: cases with protected parts already merged. */
export function doneRows(
  goal: Goal,
  window: readonly Case[],
  reflections: readonly Reflection[],
  procedure: Procedure,
): CellRowView[] {
  const answers = latestAnswers(goal.id, reflections);
  const kept = procedure.steps.flatMap((step) => step.protectedParts).filter((part) => goal.watch.includes(part.id));
  return [
    ...goal.checkpoints.map(({ id, look }): CellRowView => {
      const given = window.map((each) => answers.get(`${each.id} ${id}`) ?? null);
      return {
        id,
        label: look,
        cells: window.map((each, index) => {
          const answer = given[index]?.answer;
          return cellOf(each, answer ? CELL[answer] : 'blank', answer ? SAID[answer] : 'not answered');
        }),
        words: countWords(given),
      };
    }),
    ...kept.map(({ id, label }): CellRowView => {
      const looked = window.filter((each) => each.protectedSeen[id] !== undefined);
      const seen = looked.filter((each) => each.protectedSeen[id]).length;
      return {
        id: `kept-${id}`,
        label: `${label} (never shortened)`,
        cells: window.map((each) => {
          const was = each.protectedSeen[id];
          if (was === undefined) return cellOf(each, 'blank', 'not answered');
          return was ? cellOf(each, 'filled', 'seen') : cellOf(each, 'open', 'not seen');
        }),
        words:
          window.length === 0
            ? ''
            : looked.length === 0
              ? 'not answered yet'
              : `seen in ${seen} of ${looked.length} answered${looked.length < window.length ? `; not answered in ${window.length - looked.length}` : ''}`,
      };
    }),
  ];
}

/** One case of a row. */
export const cellOf = (
  { code }: Pick<Case, 'code'>,
  kind: CellRowView['cells'][number]['kind'],
  is: string,
): CellRowView['cells'][number] => ({ kind, say: `case ${code}: ${is}`, of: code, is });

/** "done in 17 of 20, partly in 2; 1 not answered". */
function countWords(given: readonly (Given | null)[]): string {
  if (given.length === 0) return '';
  if (given.every((each) => each === null)) return 'not answered yet';
  const of = (answer: CheckpointAnswer) => given.filter((each) => each?.answer === answer).length;
  const unanswered = given.filter((each) => each === null).length;
  const known = given.filter((each) => each?.afterResult).length;
  const late = given.filter((each) => each?.afterLengths && !each.afterResult).length;
  const parts = [
    `done in ${of('done')} of ${given.length}`,
    ...(of('partly') ? [`partly in ${of('partly')}`] : []),
    ...(of('not') ? [`not in ${of('not')}`] : []),
    ...(of('did-not-arise') ? [`does not apply in ${of('did-not-arise')}`] : []),
  ];
  return [
    parts.join(', '),
    ...(unanswered ? [`${unanswered} not answered`] : []),
    ...(late ? [`${late} answered after the times had been shown`] : []),
    ...(known ? [`${known} answered after the result was known`] : []),
  ].join('; ');
}
