import type { Case, Goal, ListRecord, Procedure, Reflection, SurgeonRecord } from '../../model';
import { aimedLabel, capital } from '../../format';
import { aboutNoteWords } from '../../words/reflection';
import { instantWords, listTitle } from '../forms/when-words';

export type WaitingList = {
  /** `null`: the list of these cases is not known. */
  listId: string | null;
  title: string;
  cases: readonly { id: string; code: string; ticked: boolean }[];
};

/**
 * Waiting cases by list, the latest first. Those of the latest list are ticked, as one sits down after one list; where
 * the list is not known, only the latest case is.
 */
export function waitingLists(
  cases: readonly Case[],
  lists: readonly ListRecord[],
  waiting: readonly string[],
): WaitingList[] {
  const chosen = cases.filter(({ id }) => waiting.includes(id)).sort((a, b) => b.sequence - a.sequence);
  const latest = chosen[0];
  const ticked = (one: Case) => one === latest || (one.listId !== null && one.listId === latest?.listId);
  return [...new Set(chosen.map(({ listId }) => listId))].map((listId) => ({
    listId,
    title: listWords(lists.find(({ id }) => id === listId)),
    cases: chosen
      .filter((one) => one.listId === listId)
      .reverse()
      .map((one) => ({ id: one.id, code: one.code, ticked: ticked(one) })),
  }));
}

const listWords = (list: ListRecord | undefined): string => (list ? listTitle(list) : 'List not known');

export type ReflectionRow = {
  id: string;
  /** ISO day, for `datetime`, and as it is read. */
  day: string;
  when: string;
  stepLabel: string;
  /** Which cases, what was answered, and whether the times had been seen. */
  about: string;
  saw: string;
  willTry: string;
};

/** What notes can be searched by: only steps and checkpoints that a note may be about. */
export function noteFinder({ reflections, procedures, goals }: SurgeonRecord): {
  steps: { id: string; label: string }[];
  checkpoints: { id: string; look: string }[];
} {
  const used = new Set(reflections.map(({ stepId }) => stepId));
  const once = <T extends { id: string }>(each: T, index: number, all: readonly T[]) =>
    all.findIndex(({ id }) => id === each.id) === index;
  return {
    steps: procedures
      .flatMap(({ steps }) => steps)
      .filter(({ id }) => used.has(id))
      .filter(once)
      .map(({ id, label }) => ({ id, label })),
    checkpoints: goals
      .flatMap(({ checkpoints }) => checkpoints)
      .filter(once)
      .map(({ id, look }) => ({ id, look })),
  };
}

export type ReflectionFilter = { word: string; stepId: string; checkpointId: string; from: string; to: string };

/**
 * Reflections that match, newest first. A word is looked for in text, tags, step and the checkpoints answered; case and
 * accents do not matter.
 */
export function reflectionRows(
  { reflections, cases, procedures, goals }: Pick<SurgeonRecord, 'reflections' | 'cases' | 'procedures' | 'goals'>,
  filter: ReflectionFilter,
): ReflectionRow[] {
  const words = plain(filter.word).split(/\s+/).filter(Boolean);
  const labelOf = (stepId: string | null) =>
    procedures.flatMap((procedure) => procedure.steps).find((step) => step.id === stepId)?.label ?? 'Any step';
  const looks = new Map(goals.flatMap(({ checkpoints }) => checkpoints.map(({ id, look }) => [id, look] as const)));
  return reflections
    .filter((each) => !filter.stepId || each.stepId === filter.stepId)
    .filter(
      (each) => !filter.checkpointId || each.answers.some((answer) => answer.checkpointId === filter.checkpointId),
    )
    .filter(
      (each) =>
        (!filter.from || each.at.slice(0, 10) >= filter.from) && (!filter.to || each.at.slice(0, 10) <= filter.to),
    )
    .filter((each) => {
      const asked = each.answers.map(({ checkpointId }) => looks.get(checkpointId) ?? '');
      const text = plain([each.saw, each.willTry, ...each.tags, labelOf(each.stepId), ...asked].join(' '));
      return words.every((word) => text.includes(word));
    })
    .sort((a, b) => (a.at < b.at ? 1 : -1))
    .map((each) => ({
      id: each.id,
      day: each.at.slice(0, 10),
      when: instantWords(each.at),
      stepLabel: labelOf(each.stepId),
      about: aboutNoteWords(
        each,
        each.caseIds.map((id) => cases.find((one) => one.id === id)?.code ?? 'erased'),
      ),
      saw: each.saw,
      willTry: each.willTry,
    }));
}

/** Has a result been read that rests on one of these cases? Their answers are then marked. */
export const resultKnown = (
  { results }: Pick<SurgeonRecord, 'results'>,
  goal: Pick<Goal, 'id'> | null,
  caseIds: readonly string[],
): boolean =>
  results.some(({ goalId, windowIds }) => goalId === goal?.id && windowIds.some((id) => caseIds.includes(id)));

/**
 * A note as it stands after a change. Answers changed once the times have been seen are marked, whatever they
 * were when first given; the text before is kept.
 * @param seen have the times of its cases been seen by now?
 * @param known has the result of its goal been read by now?
 */
export function changedReflection(
  before: Reflection,
  input: Pick<Reflection, 'answers' | 'protectedSeen' | 'saw' | 'willTry' | 'tags'>,
  seen: boolean,
  at: string,
  known = false,
): Reflection {
  const answersChanged = !sameAnswers(before.answers, input.answers);
  const textChanged = before.saw !== input.saw || before.willTry !== input.willTry;
  return {
    ...before,
    ...input,
    beforeLengths: before.beforeLengths && !(answersChanged && seen),
    ...(answersChanged && known ? { resultKnown: true as const } : {}),
    history: textChanged ? [...before.history, { at, saw: before.saw, willTry: before.willTry }] : before.history,
  };
}

function sameAnswers(before: Reflection['answers'], after: Reflection['answers']): boolean {
  const key = (each: Reflection['answers'][number]) => `${each.caseId} ${each.checkpointId} ${each.answer}`;
  const [a, b] = [new Set(before.map(key)), new Set(after.map(key))];
  return a.size === b.size && [...a].every((each) => b.has(each));
}

export type ReflectionForm = {
  goalId: string | null;
  stepId: string | null;
  stepLabel: string;
  checkpoints: readonly { id: string; look: string }[];
  kept: readonly { id: string; label: string }[];
};

/** What the form asks: the goal's own checkpoints and the protected parts it watches; without a goal only the text. */
export function reflectionForm(goal: Goal | null, procedures: readonly Procedure[]): ReflectionForm {
  if (!goal) return { goalId: null, stepId: null, stepLabel: 'Any step', checkpoints: [], kept: [] };
  const step = procedures.find((each) => each.id === goal.procedureId)?.steps.find((each) => each.id === goal.stepId);
  return {
    goalId: goal.id,
    stepId: goal.stepId,
    stepLabel: capital(aimedLabel(step?.label ?? goal.stepId, goal.eyes)),
    checkpoints: goal.checkpoints,
    kept: (step?.protectedParts ?? []).filter((part) => goal.watch.includes(part.id)),
  };
}

const plain = (text: string) =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();
