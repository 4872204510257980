import { knownLists } from './known-lists';
import type { Case, ListRecord, Procedure, ReferenceSet } from '../model';
import { drawUnits } from '../statistics';
import { atOnce, inSlices, scaled, type Slices, type Work } from '../turns';
import { adjusting, type Adjusted } from './adjust-for-eye';
import { countedCases, latestShown } from './counted-cases';
import { enoughOf } from './enough';
import { eyeColumns } from './eye-columns';
import { overTime, type OverTime } from './over-time';
import { patternsOf } from './patterns';
import { twoToWatch } from './recordings';
import { referenceSamples } from './reference-samples';
import { resampleViews } from './resample-views';
import { stepAudit } from './step-audit';
import { onlyWhereTwo, rankedOn, stepOf, stepPoint } from './step-point';
import { stepTable } from './step-table';
import { toldApart } from './told-apart';
import { auditThresholds } from './thresholds';
import type { AuditCaveat } from './caveats';
import type { Audit, StepTable } from './types';
import { waitingOverall } from './waiting';

export type AuditInput = {
  cases: readonly Case[];
  lists: readonly ListRecord[];
  procedure: Procedure;
  references: readonly ReferenceSet[];
  seed: number;
  /** Resamples of lists. */
  resamples?: number;
  /** How many of the latest counted cases are looked at. */
  shown?: number;
};

/**
 * What the record shows, step by step: median, 20th percentile, difference, spread, the reference set, change over time,
 * how sure each is, and when a step takes longer. Seconds; `null` where something cannot be said, never NaN.
 * The same input and seed give the same numbers, in slices or at once.
 */
export function auditOf(input: AuditInput): Audit {
  return atOnce(auditing(input));
}

/**
 * The same in slices of well under 50 ms, for a server that answers others meanwhile.
 *
 * @throws Cancelled once `how.cancelled` answers true.
 */
export const auditInSlices = (input: AuditInput, how: Slices): Promise<Audit> => inSlices(auditing(input), how);

function* auditing(input: AuditInput): Work<Audit> {
  const { lists, procedure, references, seed, resamples = 2000, shown = 100 } = input;
  const all = countedCases(input.cases, procedure);
  yield 0.01;
  const table = stepTable(latestShown(all, shown), procedure, lists);
  yield 0.02;
  const eye = eyeColumns(table, procedure);
  yield 0.03;
  const fitted = yield* scaled(adjusting(table, eye), 0.03, 0.1);
  const trends = yield* scaled(trending(all, table, fitted, lists), 0.1, 0.2);
  const { patterns, lookedAt } = yield* scaled(patternsOf({ table, fitted, lists }), 0.2, 0.3);
  const apart = toldApart(table.stepIds, fitted, patterns);
  const points = fitted.adjusted.map((values, step) => stepPoint(values, table.seconds[step]!, apart[step]!));
  const sum = points.reduce((total, { median }) => total + (median ?? 0), 0);
  const shares = points.map(({ median }) => (sum > 0 ? (median ?? 0) / sum : 0));
  const reference = referenceSamples(references, table, fitted);
  const units = drawUnits(table.list, auditThresholds.listsToDraw);
  const ranked = onlyWhereTwo(
    table.stepIds.map((stepId, step) =>
      rankedOn(stepOf(table, stepId), points[step]!, shares[step]!, Boolean(reference?.steps[step])),
    ),
  );
  const refit = fitted.fits.map((fit) => (fit && fit.present.length < auditThresholds.refitBelow ? fit : null));
  const draws = yield* scaled(
    resampleViews({
      adjusted: fitted.adjusted,
      recorded: table.seconds,
      apart,
      refit,
      units,
      reference,
      ranked,
      seed,
      resamples,
    }),
    0.3,
    1,
  );
  const caveats: AuditCaveat[] = [...fitted.caveats];
  if (units.single && table.cases.length > 0)
    caveats.push({ code: 'single-cases', listsKnown: table.listsFrom !== 'blocks' });
  return {
    procedure,
    caseIds: table.cases.map(({ id }) => id),
    listCount: table.listsFrom === 'blocks' ? null : knownLists(table.cases),
    listsFrom: table.listsFrom,
    orderKnown: table.orderKnown,
    seed,
    resamples,
    enough: enoughOf(table),
    twoToWatch: twoToWatch(table.cases),
    steps: table.stepIds.map((_, index) =>
      stepAudit({
        table,
        index,
        adjusted: fitted.adjusted[index]!,
        point: points[index]!,
        isAdjusted: fitted.fits[index] !== null,
        apart: apart[index]!,
        share: shares[index]!,
        draws: draws[index]!,
        resamples,
        reference: reference?.steps[index] ?? null,
        trend: trends[index] ?? null,
      }),
    ),
    patterns,
    lookedAt,
    waiting: waitingOverall(table.cases, procedure),
    caveats,
    cannot: cannotOf(table),
  };
}

/** Change over time is seen in the latest 400 counted cases, adjusted on those. */
function* trending(
  all: readonly Case[],
  shown: StepTable,
  fitted: Adjusted,
  lists: readonly ListRecord[],
): Work<(OverTime | null)[]> {
  const latest = latestShown(all, auditThresholds.trendCases);
  if (latest.length === shown.cases.length) return fitted.adjusted.map((values) => overTime(values, shown));
  const table = stepTable(latest, shown.procedure, lists, { wanted: shown.stepIds });
  const { adjusted } = yield* adjusting(table, eyeColumns(table, table.procedure));
  const trends: (OverTime | null)[] = [];
  for (const stepId of shown.stepIds) {
    const values = adjusted[table.stepIds.indexOf(stepId)];
    trends.push(values ? overTime(values, table) : null);
    yield 1;
  }
  return trends;
}

function cannotOf({ cases, stepIds }: StepTable): Audit['cannot'] {
  if (cases.length === 0) return { code: 'no-cases' };
  return stepIds.length === 0 ? { code: 'no-steps' } : null;
}
