import type { CheckpointAnswer, Reflection } from '../model';

const ANSWERS: Record<CheckpointAnswer, string> = {
  done: 'done',
  partly: 'partly',
  not: 'not done',
  'did-not-arise': 'does not apply',
};

/** "9 done, 2 partly, 1 not done". */
export function answerSummary(reflection: Pick<Reflection, 'answers'>): string {
  return (['done', 'partly', 'not', 'did-not-arise'] as const)
    .map((answer) => ({ answer, n: reflection.answers.filter((each) => each.answer === answer).length }))
    .filter(({ n }) => n > 0)
    .map(({ answer, n }) => `${n} ${ANSWERS[answer]}`)
    .join(', ');
}

/** Which cases a note is about, what was answered, and whether the times or the result had been seen by then. */
export function aboutNoteWords(reflection: Reflection, codes: readonly string[]): string {
  const answers = answerSummary(reflection);
  return [
    ...(codes.length > 0 ? [`Cases ${codes.join(', ')}.`] : []),
    ...(answers ? [`Checkpoints: ${answers}.`] : []),
    ...(answers && reflection.resultKnown
      ? ['Answered after the result was known.']
      : answers && !reflection.beforeLengths
        ? ['Answered after the times were shown.']
        : []),
  ].join(' ');
}
