import { benjaminiHochberg } from '../statistics';
import type { ListRecord } from '../model';
import type { Work } from '../turns';
import type { Adjusted } from './adjust-for-eye';
import { carryOverTests } from './carry-over';
import { factIdOf } from './eye-coding';
import { sharedFactors } from './pattern-factors';
import { changeTest, factorTest, type PatternTest } from './pattern-test';
import { ownFactors } from './step-factors';
import { stepOf } from './step-point';
import { auditThresholds } from './thresholds';
import { bimodalityTest } from './bimodality';
import { eyeGroups } from './eye-groups';
import type { Audit, Pattern, StepTable } from './types';

export type Patterns = Pick<Audit, 'patterns' | 'lookedAt'>;

type PatternInput = {
  table: StepTable;
  fitted: Pick<Adjusted, 'adjusted' | 'fits' | 'eye'>;
  lists: readonly ListRecord[];
};

/**
 * When each step takes longer: every step against every factor, one Benjamini–Hochberg family (q = 0.10) for the whole
 * record. A pattern is shown when its test stands and its shrunk effect is at least ten per cent. Everything here is an
 * association with longer times; nothing is shown to cause them. Yields the share done.
 */
export function* patternsOf(input: PatternInput): Work<Patterns> {
  const { table, fitted, lists } = latest(input);
  if (table.cases.length < auditThresholds.patternsFrom) return { patterns: [], lookedAt: [] };
  const factors = sharedFactors(table, lists);
  const log = fitted.adjusted.map((values) => values.map(Math.log));
  const tests: PatternTest[] = [];
  const add = (test: PatternTest | null) => {
    if (test) tests.push(test);
  };
  for (const [index, stepId] of table.stepIds.entries()) {
    for (const factor of [...factors, ...ownFactors(table, index)])
      add(factorTest(stepId, factor, withOwnShare(log[index]!, index, factor.factId, fitted), table));
    add(changeTest(stepId, log[index]!, table));
    add(bimodalityTest(stepId, log[index]!, table.seconds[index]!));
    yield (index + 1) / (table.stepIds.length + 1);
  }
  const steps = table.stepIds.map((stepId) => stepOf(table, stepId));
  tests.push(
    ...carryOverTests({
      stepIds: table.stepIds,
      labels: steps.map(({ label }) => label),
      log,
      earlier: steps.map(({ earlier }) => earlier),
    }),
  );
  return judged(tests, table);
}

function judged(tests: readonly PatternTest[], table: StepTable): Patterns {
  const { stepIds } = table;
  const { rejected } = benjaminiHochberg(
    tests.map(({ p }) => p),
    auditThresholds.falseShare,
  );
  const patterns = tests.flatMap((test, place): Pattern[] => {
    if (!rejected[place]) return [];
    const { p: _, effect, eyes: __, ...rest } = test;
    const { raw: ___, ...size } = effect();
    const large = Math.abs(Math.log(size.ratio)) >= Math.log(auditThresholds.patternRatio);
    return [
      {
        ...rest,
        ...size,
        eye: eyeGroups(test, tests, table),
        shown: large && (test.kind !== 'earlier-step' || size.ratio > 1),
      },
    ];
  });
  const order = (stepId: string) => stepIds.indexOf(stepId);
  patterns.sort((a, b) => order(a.stepId) - order(b.stepId) || b.ratio - a.ratio || (a.factor < b.factor ? -1 : 1));
  const shown = new Set(patterns.filter((each) => each.shown).map(({ stepId, factor }) => `${stepId}/${factor}`));
  const lookedAt = stepIds.map((stepId) => ({
    stepId,
    labels: tests
      .filter((test) => test.stepId === stepId && !shown.has(`${stepId}/${test.factor}`))
      .map(({ label }) => label),
  }));
  return { patterns, lookedAt: lookedAt.filter(({ labels }) => labels.length > 0) };
}

/** Adjusted times with one fact's own share put back, so that its pattern shows while the other facts stay out. */
function withOwnShare(
  log: Float64Array,
  index: number,
  factId: string | null,
  { fits, eye }: PatternInput['fitted'],
): Float64Array {
  const fit = fits[index];
  if (!fit || factId === null) return log;
  const own = fit.used
    .map((column, place) => ({ column, coefficient: fit.coefficients[place]! }))
    .filter(({ column }) => factIdOf(eye.names[column] ?? '') === factId);
  if (own.length === 0) return log;
  return log.map((value, place) =>
    own.reduce((sum, { column, coefficient }) => sum + coefficient * eye.columns[column]![place]!, value),
  );
}

/** The latest 400 cases: older habits are not today's patterns, and the work grows with the cases. */
function latest({ table, fitted, lists }: PatternInput): PatternInput {
  const from = Math.max(0, table.cases.length - auditThresholds.trendCases);
  if (from === 0) return { table, fitted, lists };
  const cut = (rows: readonly Float64Array[]) => rows.map((row) => row.slice(from));
  const numbers = new Map([...new Set(table.list.slice(from))].map((number, place) => [number, place]));
  return {
    lists,
    fitted: {
      fits: fitted.fits,
      adjusted: cut(fitted.adjusted),
      eye: { ...fitted.eye, columns: cut(fitted.eye.columns) },
    },
    table: {
      ...table,
      cases: table.cases.slice(from),
      seconds: cut(table.seconds),
      returnedTo: cut(table.returnedTo),
      waiting: cut(table.waiting),
      list: table.list.slice(from).map((number) => numbers.get(number) ?? 0),
      listCount: numbers.size,
    },
  };
}
