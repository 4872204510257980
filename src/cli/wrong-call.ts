import { aimedEyesOf } from '../lib/audit';
import type { Procedure } from '../lib/model';
import { compareProblem } from './compare-problem';
import type { Options } from './options';
import { whole, type FileProblem } from './problem';
import type { Reading } from './read-file';

/** What of the call does not fit this file: a case, step, kind of eye or fact that is not there, with what there is. */
export function callProblem(reading: Reading, procedures: readonly Procedure[], options: Options): FileProblem | null {
  return (
    factsProblem(reading, procedures) ??
    goalProblem(reading, procedures, options) ??
    fromProblem(reading, options) ??
    compareProblem(reading, options.compare)
  );
}

/** A procedure of the call that there is none of. */
export function procedureProblem({ procedure }: Options, procedures: readonly Procedure[]): FileProblem | null {
  if (procedure === null || procedures.some(({ id }) => id === procedure.toLowerCase())) return null;
  const known = procedures.map(({ id }) => id).join(', ');
  return whole('--procedure', procedure, `There is no such procedure. Known: ${known}.`);
}

type Asked = { id: string; values: readonly string[]; listed: boolean };

/** What can be answered in a file: its questions, and the meaning of its headings and labels. */
const askedIn = ({ parts }: Reading): Asked[] =>
  parts.flatMap(({ reading: { questions, mapping, columnOptions, labelOptions, layout } }) => [
    ...questions.map(({ id, options }) => ({ id, values: options.map(({ value }) => value), listed: true })),
    ...mapping.map(({ key, kind }) => ({
      id: key,
      values: (kind === 'column' ? columnOptions : labelOptions).map(({ value }) => value),
      listed: false,
    })),
    ...(layout === 'chapters' ? [{ id: 'code', values: [], listed: true }] : []),
  ]);

/**
 * Answers no file of the call asks for, and answers that are none of the options. An answer may be meant for one file of
 * several, so it is wrong only where none has its question.
 */
export function answerProblem(readings: readonly Reading[], { answers }: Options): FileProblem | null {
  const asked = readings.flatMap(askedIn);
  for (const [id, value] of Object.entries(answers)) {
    const same = asked.filter((one) => one.id === id);
    if (same.length === 0) return whole('--answer', id, `There is no such question. ${thereAre(asked)}`);
    if (id !== 'code' && !same.some(({ values }) => values.includes(value)))
      return whole('--answer', `${id}=${value}`, `${id} takes one of ${same[0]?.values.join(', ')}.`);
  }
  return null;
}

function thereAre(asked: readonly Asked[]): string {
  const ids = (listed: boolean) => [...new Set(asked.filter((one) => one.listed === listed).map(({ id }) => id))];
  const [questions, meanings] = [ids(true), ids(false)];
  return [
    questions.length > 0 ? `Questions: ${questions.join(', ')}.` : 'No question is open.',
    ...(meanings.length > 0 ? [`Headings and labels: ${meanings.join(', ')}.`] : []),
  ].join(' ');
}

/** Headings of the file of facts that are no fact: nothing of such a column would ever be adjusted for. */
function factsProblem({ parts, procedureId }: Reading, procedures: readonly Procedure[]): FileProblem | null {
  const unknown = parts.flatMap(({ reading }) => reading.unknownFacts);
  const procedure = procedures.find(({ id }) => id === procedureId);
  if (unknown.length === 0 || !procedure) return null;
  return whole(
    '--facts',
    unknown.join(', '),
    `${unknown.length === 1 ? 'This is no fact' : 'These are no facts'} of the eye. Facts: ${procedure.facts.map(({ id }) => id).join(', ')}. Correct the heading, or take the column out.`,
  );
}

function goalProblem(
  { procedureId, cases }: Reading,
  procedures: readonly Procedure[],
  { goal }: Options,
): FileProblem | null {
  if (!goal || cases.length === 0) return null;
  const procedure = procedures.find(({ id }) => id === procedureId);
  if (goal.step !== 'suggested' && !procedure?.steps.some(({ id }) => id === goal.step))
    return whole(
      '--goal',
      goal.step,
      `There is no such step. Steps: ${procedure?.steps.map(({ id }) => id).join(', ') ?? 'none'}, or "suggested".`,
    );
  if (goal.eyes && procedure && !aimedEyesOf(procedure, goal.eyes.fact, goal.eyes.level)) {
    const known = procedure.facts.flatMap(({ id, kind, levels }) =>
      kind === 'number'
        ? []
        : [`${id}=${kind === 'yes-no' ? 'yes|no' : (levels ?? []).map((each) => each.id).join('|')}`],
    );
    return whole(
      '--eyes',
      `${goal.eyes.fact}=${goal.eyes.level}`,
      `There are no such eyes. Known: ${known.join(', ')}.`,
    );
  }
  return null;
}

function fromProblem({ cases }: Reading, { goal }: Options): FileProblem | null {
  if (!goal || cases.length === 0 || cases.some(({ code }) => code === goal.from)) return null;
  return whole(
    '--from',
    goal.from,
    `No case has this code. There are ${cases.length}, from ${cases[0]?.code} to ${cases.at(-1)?.code}.`,
  );
}
