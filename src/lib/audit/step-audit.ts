import { MAD_CONSTANT, median } from '../statistics';
import { differenceOf } from './difference';
import type { ReferenceStep } from './reference-samples';
import type { StepDraws, View } from './resample-views';
import { alsoNamed } from './merged-steps';
import { intervalOf, meanOf, returnedToIn, stepOf, type StepPoint } from './step-point';
import type { OverTime } from './over-time';
import type { StepAudit, StepTable } from './types';
import { commonestReason } from './waiting';

export type StepParts = {
  table: StepTable;
  index: number;
  adjusted: Float64Array;
  point: StepPoint;
  /** Something was taken out for the eye. */
  isAdjusted: boolean;
  /** The difference is split. */
  apart: boolean;
  share: number;
  draws: StepDraws;
  resamples: number;
  reference: ReferenceStep | null;
  trend: OverTime | null;
};

const asSpread = (logMad: number) => Math.exp(MAD_CONSTANT * logMad);

/** One row of the audit, from parts computed elsewhere. Nothing in it is NaN: what cannot be said is `null`. */
export function stepAudit({
  table,
  index,
  adjusted,
  point,
  isAdjusted,
  apart,
  share,
  draws,
  resamples,
  reference,
  trend,
}: StepParts): StepAudit {
  const stepId = table.stepIds[index]!;
  const step = stepOf(table, stepId);
  const { n, median, p20, logScale, adjustedP20 } = point;
  const spread = logScale ? Math.exp(logScale.scale) : null;
  const present = table.cases.filter((_, place) => !Number.isNaN(adjusted[place]));
  const difference = differenceOf(point, apart, intervalOf(draws.difference, n), table.seconds[index]!);
  const first = (view: View) => (draws.first[view] === null ? null : draws.first[view] / resamples);
  return {
    stepId,
    label: step.label,
    optional: step.optional,
    retired: step.retired,
    notToShorten: step.notToShorten,
    hasProtectedParts: step.protectedParts.length > 0,
    n,
    median,
    p20,
    adjusted: isAdjusted && median !== null && adjustedP20 !== null ? { median, p20: adjustedP20 } : null,
    ...difference,
    spread,
    spreadInterval: logScale?.method === 'mad' ? intervalOf(draws.logMad, n, asSpread) : null,
    twoThirds: point.twoThirds,
    share: median === null ? null : share,
    returnedTo: returnedToIn(table.returnedTo[index]!),
    waitingPerCase: meanOf(table.waiting[index]!) ?? 0,
    waitingReason: commonestReason(present, table.procedure, alsoNamed(stepId, table)),
    overTime: trend,
    reference: reference && median !== null ? referenceOf(reference, median, draws, n, logScale?.scale ?? null) : null,
    // A difference that cannot be said cannot be the largest either.
    first: {
      seconds: difference.differenceCannot ? null : first('seconds'),
      spread: first('spread'),
      reference: first('reference'),
    },
    dots: table.cases.flatMap(({ id, code }, place) =>
      Number.isNaN(adjusted[place]) || median === null
        ? []
        : [{ caseId: id, code, ratio: adjusted[place]! / median, seconds: table.seconds[index]![place]! }],
    ),
  };
}

function referenceOf(
  { n, readers, recorded, times, within }: ReferenceStep,
  own: number,
  draws: StepDraws,
  ownCases: number,
  logScale: number | null,
): StepAudit['reference'] {
  const theirs = median(times.seconds);
  const ratio = intervalOf(draws.referenceRatio, ownCases);
  if (!ratio) return null;
  const centre = median(within.log);
  const theirScale = MAD_CONSTANT * median(within.log.map((value) => Math.abs(value - centre)));
  const spread = logScale === null ? null : intervalOf(draws.referenceMad, ownCases, asSpread);
  return {
    n,
    readers,
    median: recorded,
    ratio: own / theirs,
    ...ratio,
    spreadRatio: spread && logScale !== null ? { ratio: Math.exp(logScale - theirScale), ...spread } : null,
  };
}
