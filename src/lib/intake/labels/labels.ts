import type { Procedure } from '../../model';
import { nameIndex, nameMatcher, type Match } from './name-matcher';
import { oncePer } from './once-per';
import { plainWords } from './plain-words';

/** What a label in the step column stands for. */
export type Meaning =
  | { kind: 'step'; stepId: string }
  | { kind: 'protected'; stepId: string; partId: string }
  | { kind: 'waiting'; reason: string | null };

export type Meanings = { how: Match<string>['how']; meanings: readonly Meaning[] };

export const meaningValue = (meaning: Meaning): string =>
  meaning.kind === 'step'
    ? `step:${meaning.stepId}`
    : meaning.kind === 'protected'
      ? `protected:${meaning.stepId}:${meaning.partId}`
      : `waiting:${meaning.reason ?? ''}`;

export function meaningOf(value: string): Meaning {
  const [kind, id = '', part = ''] = value.split(':');
  if (kind === 'protected') return { kind, stepId: id, partId: part };
  return kind === 'waiting' ? { kind, reason: id || null } : { kind: 'step', stepId: id };
}

/** A label that says waiting and no more. */
const PLAIN_WAITING = ['waiting', 'wait', 'gap', 'idle', 'pause', 'delay', 'idle time', 'dead time'];

const reasonIndex = oncePer((procedure: Procedure) =>
  nameIndex(
    procedure.waitingReasons.map(({ id, label, synonyms = [] }) => ({
      value: id,
      names: [id, label, label.replace(/ \(.*/, ''), ...synonyms],
    })),
  ),
);

export const waitingReasonMatcher = (procedure: Procedure): ((text: string) => Match<string>) =>
  nameMatcher(reasonIndex(procedure));

/** Steps by all their names, steps by their ids, and what else may stand in the step column. */
const indexOf = oncePer((procedure: Procedure) => ({
  steps: nameIndex(
    procedure.steps.map(({ id, label, synonyms }) => ({ value: `step:${id}`, names: [id, label, ...synonyms] })),
  ),
  ids: nameIndex(procedure.steps.map(({ id }) => ({ value: `step:${id}`, names: [id] }))),
  others: nameIndex([
    ...procedure.steps.flatMap((step) =>
      step.protectedParts.map(({ id, label }) => ({ value: `protected:${step.id}:${id}`, names: [id, label] })),
    ),
    { value: 'waiting:', names: PLAIN_WAITING },
    ...procedure.waitingReasons.map(({ id, label, synonyms = [] }) => ({
      value: `waiting:${id}`,
      names: [id, label, ...synonyms].flatMap((name) => [name, `waiting ${name}`, `waiting for ${name}`]),
    })),
  ]),
}));

/**
 * Reads labels of the step column: a step by any of its names; a protected part or a reason for waiting by its own name.
 *
 * @param ours a file this tool wrote: an id stands for itself, whatever else it may be a synonym of.
 */
export function labelMatcher(procedure: Procedure, ours: boolean): (label: string) => Meanings {
  const index = indexOf(procedure);
  const steps = nameMatcher(ours ? index.ids : index.steps);
  const others = nameMatcher(index.others, { within: false });
  return (label) => {
    const step = steps(label);
    if (step.how === 'exact') return meanings(step);
    const other = others(label);
    if (other.how === 'exact' || (other.how === 'loose' && /^(waiting|wait)\b/.test(plainWords(label))))
      return meanings(other);
    return meanings(step.how === 'none' ? other : step);
  };
}

/** Reads the column of procedures. */
export const procedureMatcher = (procedures: readonly Procedure[]): ((text: string) => Match<string>) =>
  nameMatcher(procedures.map(({ id, name, synonyms }) => ({ value: id, names: [id, name, ...synonyms] })));

const meanings = ({ how, values }: Match<string>): Meanings => ({ how, meanings: values.map(meaningOf) });
