import type { Goal, Procedure, SurgeonRecord } from '../../model';
import type { Expected } from '../../recording';
import { factPhrase, listed } from '../../format';
import { goalOfReview } from '../goals/waiting-for-review';
import { hiddenCaseIds } from '../goals/hidden-times';
import { expectedBoundaries } from './expected-boundaries';
import { stepInitials } from './step-initials';
import type { TypedFacts } from './typed-case';
import { timedSteps } from './typed-times';

type Choice = { value: string; label: string };

/** What the timing screen needs to know of the operation. */
export type TimingView = {
  /** Under which its marks are kept. */
  code: string;
  /** A second timing: the code of the case, whose first marks are not shown. */
  again: string | null;
  procedure: string;
  steps: readonly {
    id: string;
    label: string;
    initials: string;
    starts: string;
    ends: string;
    /** It is the whole of these. */
    mergeOf: readonly string[];
    synonyms: readonly string[];
    parts: readonly { id: string; label: string }[];
  }[];
  reasons: readonly Choice[];
  eventKinds: readonly Choice[];
  /** Facts of the eye as entered first, in words; `null` where none was entered. */
  eye: string | null;
  /** Checkpoints of the goal that runs, answered in the same pass. */
  checkpoints: readonly { id: string; look: string }[];
  /** Boundary → when it is expected after the one before; `null` below five cases timed here. */
  expected: Readonly<Record<string, Expected>> | null;
};

export function timingView(
  record: SurgeonRecord,
  procedure: Procedure,
  { code, facts }: Pick<TypedFacts, 'code' | 'facts'>,
  again: string | null = null,
): TimingView {
  const initials = stepInitials(procedure);
  const goal = goalTimedFor(record, procedure);
  const hidden = hiddenCaseIds(record);
  return {
    code,
    again,
    procedure: procedure.name,
    steps: timedSteps(procedure).map(({ id, label, starts, ends, mergeOf, synonyms, protectedParts }) => ({
      id,
      label,
      initials: initials[id] ?? '',
      starts,
      ends,
      mergeOf: mergeOf ?? [],
      synonyms,
      parts: protectedParts,
    })),
    reasons: procedure.waitingReasons.map(({ id, label }) => ({ value: id, label })),
    eventKinds: procedure.eventKinds.map(({ id, label }) => ({ value: id, label })),
    eye: eyeWords(procedure, facts),
    checkpoints: (again === null ? (goal?.checkpoints ?? []) : []).map(({ id, look }) => ({ id, look })),
    expected: expectedBoundaries(
      record.cases.filter(({ id }) => !hidden.has(id)),
      procedure.id,
    ),
  };
}

/** The goal whose checkpoints are answered while a case of this procedure is timed. */
export function goalTimedFor(record: SurgeonRecord, procedure: Procedure): Goal | null {
  const goal = goalOfReview(record);
  return goal?.procedureId === procedure.id ? goal : null;
}

function eyeWords({ facts: asked }: Procedure, facts: TypedFacts['facts']): string | null {
  const words = asked.flatMap((fact) => {
    const value = facts[fact.id];
    return value === undefined ? [] : [factPhrase(fact, value)];
  });
  return words.length === 0 ? null : listed(words);
}
