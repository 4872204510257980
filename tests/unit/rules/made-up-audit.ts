import type { Audit, Pattern, StepAudit } from '../../../src/lib/audit/types';
import type { Guidance, SafetyFacts } from '../../../src/lib/rules/types';
import { procedure, step } from '../../made-up/cases';

/** Audits made up by hand, so that each rule can be tested without a record behind it. */
export function stepAudit(stepId: string, more: Partial<StepAudit> = {}): StepAudit {
  return {
    stepId,
    label: stepId[0]?.toUpperCase() + stepId.slice(1),
    optional: false,
    retired: false,
    notToShorten: false,
    hasProtectedParts: false,
    n: 60,
    median: 60,
    p20: 48,
    difference: 12,
    differenceInterval: { low: 8, high: 16 },
    differenceCannot: null,
    spread: 1.25,
    spreadInterval: { low: 1.2, high: 1.3 },
    adjusted: null,
    differenceSameEyes: null,
    differenceWithEye: null,
    twoThirds: { low: 48, high: 75 },
    share: 0.25,
    returnedTo: { cases: 5, of: 100, perCase: 0.05 },
    waitingPerCase: 0,
    waitingReason: null,
    overTime: { ratio: 1, low: 0.96, high: 1.04 },
    reference: null,
    first: { seconds: 0.25, spread: 0.25, reference: null },
    dots: [],
    ...more,
  };
}

export const reference = (ratio: number): NonNullable<StepAudit['reference']> => ({
  n: 24,
  readers: 2,
  median: 60 / ratio,
  ratio,
  low: ratio * 0.85,
  high: ratio * 1.15,
  spreadRatio: null,
});

export function audit(steps: readonly StepAudit[], more: Partial<Audit> = {}): Audit {
  return {
    procedure: procedure(steps.map(({ stepId }) => step(stepId))),
    caseIds: Array.from({ length: 60 }, (_, index) => `case-${index + 1}`),
    listCount: 12,
    listsFrom: 'lists',
    orderKnown: true,
    seed: 1,
    resamples: 2000,
    enough: { enough: true, cases: 60, lists: 12, moreCases: 0, moreLists: 0 },
    steps,
    patterns: [],
    lookedAt: [],
    twoToWatch: true,
    waiting: { perCase: 0, reason: null, n: 0 },
    caveats: [],
    cannot: null,
    ...more,
  };
}

export function pattern(stepId: string, more: Partial<Pattern> = {}): Pattern {
  return {
    stepId,
    factor: 'nucleus=hard',
    label: 'nucleus hard',
    kind: 'fact',
    earlierStepId: null,
    factId: null,
    eye: null,
    nWith: 9,
    nWithout: 51,
    ratio: 1.4,
    low: 1.2,
    high: 1.7,
    shown: true,
    ...more,
  };
}

export const noEvents: SafetyFacts = { steps: [], monitorSignalled: false, unreviewedElsewhere: 0 };

export function guidance(stepId: string, more: Partial<Guidance> = {}): Guidance {
  const fits = ['longer', 'varies', 'returned-to', 'hard-eyes', 'late-in-list', 'protected-parts'] as const;
  return {
    procedureId: 'made-up',
    step: stepId,
    title: stepId,
    aim: 'Everything in place.',
    protectedParts: ['The pause.'],
    checkpoints: fits.map((fit) => ({
      id: `${stepId}-${fit}`,
      look: `Look at ${fit}.`,
      why: `Because of ${fit}.`,
      fits: [fit],
      notFor: [],
    })),
    reminders: ['Breathe.', 'Look twice.'],
    stop: ['The view is lost.'],
    earlier: [],
    drills: [
      {
        id: `${stepId}-wet`,
        where: 'wet lab',
        minutes: 20,
        do: 'Do it five times.',
        passed: 'Three in a row.',
        fits: [],
      },
      { id: `${stepId}-video`, where: 'video', minutes: 10, do: 'Watch two.', passed: 'Three in a row.', fits: [] },
    ],
    sources: [{ mark: 'c', kind: 'common-practice' }],
    worksheet: null,
    reviewed: null,
    marked: {},
    body: '',
    ...more,
  };
}
