import { procedureSchema, type EyeFact, type Procedure, type Step } from '../../../model';
import type { FieldError } from '../../forms/fields';

/** One thing that keeps a procedure from being stored: whose field it is, and what to do. */
export type ProcedureProblem = {
  of: 'procedure' | 'step' | 'fact' | 'reason' | 'event';
  /** Id of the step, fact, reason or kind of event; `null` for the procedure itself. */
  id: string | null;
  field: string;
  message: string;
};

/** Names of fields on the form at hand, where something is new and has no field under its id yet. */
export type Renamed = Readonly<Record<string, string>>;

/** The problems as the error summary of one form lists them. */
export const errorsOf = (procedure: Procedure, renamed: Renamed = {}): FieldError[] =>
  procedureProblems(procedure).map(({ field, message }) => ({ field: renamed[field] ?? field, message }));

const NAME_LONGEST = 80;
const WORDS_LONGEST = 240;
const ANSWER_KEY = /^[A-Z0-9]$/;
/** 0 stands for "none of them". */
const LETTER = /^[A-Z1-9]$/;

/**
 * Everything wrong with a procedure as it would be stored, each naming its field; empty where it can be. The schema alone
 * lets through what only trips a person later: two answers on one key, two steps of one name, protected parts that share an id.
 */
export function procedureProblems(procedure: Procedure): ProcedureProblem[] {
  const problems = [
    ...text('procedure', null, 'name', 'Name', procedure.name, NAME_LONGEST),
    ...procedure.steps.flatMap((step) => stepProblems(step)),
    ...twice(procedure.steps, 'step', 'two steps are called'),
    ...(procedure.steps.filter(({ retired }) => !retired).length < 2
      ? [
          {
            of: 'procedure' as const,
            id: null,
            field: 'steps',
            message: 'Steps: a procedure needs at least two that are not retired.',
          },
        ]
      : []),
    ...procedure.facts.flatMap(factProblems),
    ...twice(procedure.facts, 'fact', 'two facts are called'),
    ...sharedLetters(procedure.facts),
    ...procedure.waitingReasons.flatMap(({ id, label }) =>
      text('reason', id, `reason-${id}`, 'Waiting reason', label, NAME_LONGEST),
    ),
    ...procedure.eventKinds.flatMap(({ id, label }) =>
      text('event', id, `event-${id}`, 'Kind of event', label, NAME_LONGEST),
    ),
    ...twice(procedure.waitingReasons, 'reason', 'two reasons are called'),
    ...twice(procedure.eventKinds, 'event', 'two kinds of event are called'),
  ];
  if (problems.length > 0) return problems;
  const parsed = procedureSchema.safeParse(procedure);
  return parsed.success
    ? []
    : parsed.error.issues.map(({ path, message }) => ({
        of: 'procedure',
        id: null,
        field: String(path.findLast((part) => typeof part === 'string') ?? 'name'),
        message: `${path.join(', ')}: ${message}.`,
      }));
}

function text(
  of: ProcedureProblem['of'],
  id: string | null,
  field: string,
  what: string,
  value: string,
  longest: number,
): ProcedureProblem[] {
  if (value.trim() === '') return [{ of, id, field, message: `${what}: write it down; it cannot stay empty.` }];
  return value.length > longest ? [{ of, id, field, message: `${what}: at most ${longest} characters.` }] : [];
}

function stepProblems({ id, label, starts, ends, protectedParts }: Step): ProcedureProblem[] {
  const called = label.trim() === '' ? 'Step' : label;
  return [
    ...text('step', id, 'label', 'Name of the step', label, NAME_LONGEST),
    ...text('step', id, 'starts', `${called}, starts`, starts, WORDS_LONGEST),
    ...text('step', id, 'ends', `${called}, ends`, ends, WORDS_LONGEST),
    ...protectedParts.flatMap((part) =>
      text('step', id, `part-${part.id}`, `${called}, protected part`, part.label, NAME_LONGEST),
    ),
  ];
}

function factProblems(fact: EyeFact): ProcedureProblem[] {
  const { id, label, kind, asked, key, levels = [] } = fact;
  const wrong = (field: string, message: string): ProcedureProblem => ({ of: 'fact', id, field, message });
  const problems = text('fact', id, 'label', 'Name of the fact', label, NAME_LONGEST);
  if (asked === 'more' && kind !== 'yes-no')
    problems.push(
      wrong('asked', `${label}: only a yes or no goes under "anything else". Give this one a field of its own.`),
    );
  else if (asked === 'more' && !LETTER.test(key ?? ''))
    problems.push(wrong('key', `${label}, letter: one letter or a digit from 1, since 0 means none.`));
  if (kind !== 'choice') return problems;
  if (levels.length < 2) problems.push(wrong('newAnswer', `${label}, answers: a choice needs at least two.`));
  const [keys, labels] = [new Map<string, string>(), new Set<string>()];
  for (const level of levels) {
    problems.push(...text('fact', id, `answer-${level.id}`, `${label}, answer`, level.label, NAME_LONGEST));
    const holder = keys.get(level.key);
    if (!ANSWER_KEY.test(level.key))
      problems.push(wrong(`key-${level.id}`, `${label}, key of "${level.label}": one letter or one digit.`));
    else if (holder !== undefined)
      problems.push(
        wrong(
          `key-${level.id}`,
          `${label}, key: ${level.key} already stands for "${holder}". Give "${level.label}" another.`,
        ),
      );
    keys.set(level.key, level.label);
    if (labels.has(plain(level.label)))
      problems.push(wrong(`answer-${level.id}`, `${label}: two answers are called "${level.label}".`));
    labels.add(plain(level.label));
  }
  return problems;
}

/** Facts under "anything else" are told apart by their letter alone. */
function sharedLetters(facts: readonly EyeFact[]): ProcedureProblem[] {
  const holders = new Map<string, string>();
  return facts
    .filter(({ asked, key }) => asked === 'more' && key)
    .flatMap(({ id, label, key = '' }) => {
      const holder = holders.get(key);
      holders.set(key, label);
      return holder === undefined
        ? []
        : [
            {
              of: 'fact' as const,
              id,
              field: 'key',
              message: `${label}, letter: ${key} already stands for ${holder}. Choose another.`,
            },
          ];
    });
}

function twice(
  all: readonly { id: string; label: string }[],
  of: ProcedureProblem['of'],
  words: string,
): ProcedureProblem[] {
  const seen = new Set<string>();
  return all.flatMap(({ id, label }) => {
    const name = plain(label);
    if (!seen.has(name) || name === '') {
      seen.add(name);
      return [];
    }
    const field = of === 'reason' || of === 'event' ? `${of}-${id}` : 'label';
    return [{ of, id, field, message: `Name: ${words} "${label}". Rename one, so that they can be told apart.` }];
  });
}

const plain = (label: string) => label.trim().toLowerCase();
