import type { Case, CheckpointAnswer, Goal, ListRecord, Procedure, Reflection } from '../model';
import { capital } from '../words';
import { instantWords, listTitle } from './when-words';

export const ANSWER_WORDS: Record<CheckpointAnswer, string> = {
  done: 'done',
  partly: 'partly',
  not: 'not done',
  'did-not-arise': 'did not arise',
};

/** Cases of a running goal's window that no reflection answers yet, oldest first. */
export function waitingForReview(windowIds: readonly string[], reflections: readonly Reflection[]): string[] {
  const answered = new Set(reflections.flatMap((each) => each.answers.map((answer) => answer.caseId)));
  return windowIds.filter((id) => !answered.has(id));
}

export type CaseChoice = { id: string; code: string; list: string; waiting: boolean };

/** Cases that can be reflected on, newest first: those waiting, then the latest others. */
export function caseChoices(
  cases: readonly Case[],
  lists: readonly ListRecord[],
  waiting: readonly string[],
  most = 60,
): CaseChoice[] {
  const choice = (each: Case): CaseChoice => ({
    id: each.id,
    code: each.code,
    list: listWords(lists.find((list) => list.id === each.listId)),
    waiting: waiting.includes(each.id),
  });
  const newestFirst = [...cases].sort((a, b) => b.sequence - a.sequence);
  return [
    ...newestFirst.filter((each) => waiting.includes(each.id)),
    ...newestFirst.filter((each) => !waiting.includes(each.id)).slice(0, most),
  ].map(choice);
}

const listWords = (list: ListRecord | undefined): string => (list ? listTitle(list) : 'list not known');

export type ReflectionRow = {
  id: string;
  /** ISO day, for `datetime`, and as it is read. */
  day: string;
  when: string;
  stepLabel: string;
  /** Which cases, what was answered, and whether the lengths had been seen. */
  about: string;
  saw: string;
  willTry: string;
};

export type ReflectionFilter = { word: string; stepId: string; checkpointId: string; from: string; to: string };

/** Reflections that match, newest first. A word is looked for in text, tags and step; case and accents do not matter. */
export function reflectionRows(
  reflections: readonly Reflection[],
  cases: readonly Case[],
  procedures: readonly Procedure[],
  filter: ReflectionFilter,
): ReflectionRow[] {
  const words = plain(filter.word).split(/\s+/).filter(Boolean);
  const labelOf = (stepId: string | null) =>
    procedures.flatMap((procedure) => procedure.steps).find((step) => step.id === stepId)?.label ?? 'Any step';
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
      const text = plain([each.saw, each.willTry, ...each.tags, labelOf(each.stepId)].join(' '));
      return words.every((word) => text.includes(word));
    })
    .sort((a, b) => (a.at < b.at ? 1 : -1))
    .map((each) => ({
      id: each.id,
      day: each.at.slice(0, 10),
      when: instantWords(each.at),
      stepLabel: labelOf(each.stepId),
      about: aboutWords(each, cases),
      saw: each.saw,
      willTry: each.willTry,
    }));
}

function aboutWords(reflection: Reflection, cases: readonly Case[]): string {
  const codes = reflection.caseIds.map((id) => cases.find((one) => one.id === id)?.code ?? 'erased');
  const answers = answerSummary(reflection);
  return [
    ...(codes.length > 0 ? [`Cases ${codes.join(', ')}.`] : []),
    ...(answers ? [`Checkpoints: ${answers}.`] : []),
    ...(answers && !reflection.beforeLengths ? ['Answered after the lengths were shown.'] : []),
  ].join(' ');
}

/** "9 done, 2 partly, 1 not done". */
export function answerSummary(reflection: Pick<Reflection, 'answers'>): string {
  return (['done', 'partly', 'not', 'did-not-arise'] as const)
    .map((answer) => ({ answer, n: reflection.answers.filter((each) => each.answer === answer).length }))
    .filter(({ n }) => n > 0)
    .map(({ answer, n }) => `${n} ${ANSWER_WORDS[answer]}`)
    .join(', ');
}

export type ReflectionForm = {
  goalId: string | null;
  stepId: string | null;
  stepLabel: string;
  checkpoints: readonly { id: string; look: string }[];
  kept: readonly { id: string; label: string }[];
};

/** What the form asks: the goal's own checkpoints and the kept parts it watches; without a goal only the text. */
export function reflectionForm(goal: Goal | null, procedures: readonly Procedure[]): ReflectionForm {
  if (!goal) return { goalId: null, stepId: null, stepLabel: 'Any step', checkpoints: [], kept: [] };
  const step = procedures.find((each) => each.id === goal.procedureId)?.steps.find((each) => each.id === goal.stepId);
  return {
    goalId: goal.id,
    stepId: goal.stepId,
    stepLabel: capital(step?.label ?? goal.stepId),
    checkpoints: goal.checkpoints,
    kept: (step?.keptParts ?? []).filter((part) => goal.watch.includes(part.id)),
  };
}

const plain = (text: string) =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();
