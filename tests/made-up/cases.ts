import type { Case, EyeFact, ListRecord, Procedure, Step, Stretch } from '../../src/lib/model';
import { plainCase, plainList, plainStep } from './plain';

/** Made-up procedures, cases and lists for the tests of the audit and the rules. */
export function step(id: string, more: Partial<Step> = {}): Step {
  return {
    id,
    label: id[0]?.toUpperCase() + id.slice(1),
    ...plainStep(),
    ...more,
  };
}

export function fact(id: string, kind: EyeFact['kind'], levels?: readonly string[]): EyeFact {
  return {
    id,
    label: id[0]?.toUpperCase() + id.slice(1),
    kind,
    levels: levels?.map((level, index) => ({ id: level, label: level.replaceAll('-', ' '), key: String(index + 1) })),
    synonyms: [],
    asked: 'row',
  };
}

export function procedure(steps: readonly Step[], facts: readonly EyeFact[] = []): Procedure {
  return {
    id: 'made-up',
    name: 'Made up',
    synonyms: [],
    steps: [...steps],
    facts: [...facts],
    waitingReasons: [
      { id: 'lens-loading', label: 'lens loading' },
      { id: 'machine', label: 'machine' },
    ],
    eventKinds: [],
    origin: 'own',
  };
}

export const stretch = (stepId: string | null, start: number, end: number, more: Partial<Stretch> = {}): Stretch => ({
  stepId,
  start,
  end,
  seconds: end - start,
  kind: 'step',
  reason: null,
  ...more,
});

export const length = (stepId: string | null, seconds: number, more: Partial<Stretch> = {}): Stretch => ({
  stepId,
  start: null,
  end: null,
  seconds,
  kind: 'step',
  reason: null,
  ...more,
});

export function case_(number: number, stretches: readonly Stretch[], more: Partial<Case> = {}): Case {
  return {
    id: `case-${number}`,
    code: `C${number}`,
    procedureId: 'made-up',
    sequence: number,
    stretches: [...stretches],
    ...plainCase(),
    ...more,
  };
}

export function listRecord(number: number, more: Partial<ListRecord> = {}): ListRecord {
  return {
    id: `list-${number}`,
    label: String(number),
    when: { kind: 'unknown' },
    ...plainList(),
    ...more,
  };
}
