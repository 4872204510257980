import type { Case, EyeFact, ListRecord, Procedure, Step, Stretch } from '../../src/lib/model';

/** Made-up procedures, cases and lists for the tests of the audit and the rules. */
export function step(id: string, more: Partial<Step> = {}): Step {
  return {
    id,
    label: id[0]?.toUpperCase() + id.slice(1),
    starts: 'tip in',
    ends: 'tip out',
    synonyms: [],
    earlier: [],
    optional: false,
    notToShorten: false,
    keptParts: [],
    retired: false,
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
    listId: null,
    position: null,
    sequence: number,
    orderKnown: true,
    facts: {},
    factChanges: [],
    hands: { whole: 'mine', steps: {} },
    stretches: [...stretches],
    wentBackNoted: {},
    events: null,
    keptSeen: {},
    energy: null,
    recording: null,
    source: { kind: 'typed' },
    leftOut: null,
    keptAsItIs: null,
    invented: false,
    version: 1,
    history: [],
    ...more,
  };
}

export function listRecord(number: number, more: Partial<ListRecord> = {}): ListRecord {
  return {
    id: `list-${number}`,
    label: String(number),
    when: { kind: 'unknown' },
    operated: null,
    anaesthesia: null,
    machine: null,
    teaching: null,
    eventsAnsweredForAll: null,
    untimedEvents: [],
    nextDayKnown: null,
    ...more,
  };
}
