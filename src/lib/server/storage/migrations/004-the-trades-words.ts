import type { Migration } from './migration';

type Raw = Record<string, unknown>;

const rows = (value: unknown): Raw[] => (Array.isArray(value) ? (value as Raw[]) : []);
const raw = (value: unknown): Raw | null => (value && typeof value === 'object' ? (value as Raw) : null);

/** The same values under their new names, in their old order; what has none keeps its own. */
const renamed = (value: unknown, names: Readonly<Record<string, string>>): unknown => {
  const one = raw(value);
  if (!one) return value;
  return Object.fromEntries(
    Object.entries(one).map(([key, each]) => [Object.hasOwn(names, key) ? names[key] : key, each]),
  );
};

const CASE = {
  wentBackNoted: 'returnsNoted',
  keptSeen: 'protectedSeen',
  seenWhileOut: 'timesSeenWhileLeftOut',
};
const START = { allowance: 'selectionAllowance', allowanceSpread: 'selectionAllowanceSpread' };
const FROZEN = { usual: 'median', oneInFive: 'p20' };
const OUTCOME = {
  allowance: 'selectionAllowance',
  startUsual: 'baselineMedian',
  rangeStart: 'rangeBaseline',
  already: 'priorTrend',
  said: 'caveats',
};
const EFFECTS = ['against', 'plain', 'rest', 'spread'];

function caseOf(one: Raw): Raw {
  const stretches = rows(one.stretches).map((stretch) =>
    stretch.kind === 'kept' ? { ...stretch, kind: 'protected' } : stretch,
  );
  return renamed({ ...one, stretches }, CASE) as Raw;
}

function goalOf(goal: Raw): Raw {
  const start = raw(renamed(goal.start, START));
  const frozen = renamed(start?.frozen, FROZEN);
  return {
    ...(renamed({ ...goal, start: start && { ...start, frozen } }, { start: 'baseline' }) as Raw),
    ...(raw(goal.erased) ? { erased: renamed(goal.erased, { start: 'baseline' }) } : {}),
  };
}

function resultOf(result: Raw): Raw {
  const outcome = raw(renamed(result.outcome, OUTCOME));
  const told = outcome && {
    ...outcome,
    ...Object.fromEntries(EFFECTS.map((key) => [key, renamed(outcome[key], { nStart: 'nBaseline' })])),
    notes: (outcome.notes as unknown[]).map((note) => (note === 'already' ? 'prior-trend' : note)),
  };
  return renamed({ ...result, outcome: told }, { startIds: 'baselineIds' }) as Raw;
}

const reflectionOf = (one: Raw): Raw =>
  renamed(
    { ...one, keptSeen: rows(one.keptSeen).map((row) => renamed(row, { keptPartId: 'protectedPartId' })) },
    { keptSeen: 'protectedSeen' },
  ) as Raw;

const procedureOf = (one: Raw): Raw => ({
  ...one,
  steps: rows(one.steps).map((step) => renamed(step, { keptParts: 'protectedParts' })),
});

const each =
  (of: (one: Raw) => Raw) =>
  (document: Raw): Raw => ({ ...document, records: rows(document.records).map(of) });

/**
 * Stored fields take the names that the trade and statistics have for them: protected parts, baseline cases, median,
 * 20th percentile, selection allowance, prior trend. Values are the same; only names change.
 */
export const theTradesWords: Migration = {
  to: 4,
  documents: {
    cases: each(caseOf),
    goals: each(goalOf),
    results: each(resultOf),
    reflections: each(reflectionOf),
    procedures: each(procedureOf),
    imports: (document) =>
      document.state === 'recorded' ? { ...document, before: rows(document.before).map(caseOf) } : document,
  },
};
