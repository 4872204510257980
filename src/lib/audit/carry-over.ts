import { fisherZ, median, normalCdf, spearman } from '../statistics';
import { inSentence } from '../format';
import { groupEffect } from './group-effect';
import type { PatternTest } from './pattern-test';
import { auditThresholds } from './thresholds';

type Steps = {
  stepIds: readonly string[];
  labels: readonly string[];
  log: readonly Float64Array[];
  earlier: readonly (readonly string[])[];
};
type Pair = { first: number; second: number; z: number; n: number };

/** Variance of Fisher's z of a rank correlation is 1.06/(n − 3) (Fieller, Hartley and Pearson, Biometrika 1957;44:470). */
const RANK_VARIANCE = 1.06;

/**
 * Does a step take longer after a long earlier step? Steps of one case share a case factor (the eye, the day), so any
 * two of them go together a little: the Fisher z of the pair is compared with the mean z of all other pairs of steps,
 * and only a higher one counts. An association, never a cause.
 */
export function carryOverTests({ stepIds, labels, log, earlier }: Steps): PatternTest[] {
  const pairs: Pair[] = [];
  for (let second = 0; second < stepIds.length; second += 1)
    for (let first = 0; first < second; first += 1) {
      const places = together(log[first]!, log[second]!);
      if (places.length < auditThresholds.carryOverFrom) continue;
      const { rho, method } = spearman(pick(log[first]!, places), pick(log[second]!, places));
      if (method !== 'cannot') pairs.push({ first, second, z: fisherZ(rho), n: places.length });
    }
  // Too few other pairs to know how much the steps of a case go together anyway.
  if (pairs.length < auditThresholds.carryOverPairs) return [];
  const total = pairs.reduce((sum, { z }) => sum + z, 0);
  return pairs.flatMap(({ first, second, z, n }): PatternTest[] => {
    const step = earlier[second]!.includes(stepIds[first]!) ? { later: second, before: first } : null;
    // The order of some steps differs between surgeons: the procedure says which can make which longer.
    const swapped = earlier[first]!.includes(stepIds[second]!) ? { later: first, before: second } : null;
    const found = step ?? swapped;
    if (!found) return [];
    const others = pairs.length - 1;
    const mean = (total - z) / others;
    const se = Math.sqrt((RANK_VARIANCE / (n - 3)) * (1 + 1 / others));
    const groups = thirds(log, found.before, found.later);
    return [
      {
        stepId: stepIds[found.later]!,
        factor: `after-${stepIds[found.before]!}`,
        kind: 'earlier-step',
        label: `after a long ${inSentence(labels[found.before]!)}`,
        earlierStepId: stepIds[found.before]!,
        factId: null,
        nWith: groups.long.length,
        nWithout: groups.others.length,
        p: normalCdf((mean - z) / se),
        effect: () => groupEffect(groups.long, groups.others),
      },
    ];
  });
}

/**
 * The later step against the rest of the same case, by whether the earlier one was in its longest third: without
 * taking the rest out, cases long all through would be counted as carry-over.
 */
function thirds(
  log: readonly Float64Array[],
  before: number,
  later: number,
): { long: Float64Array; others: Float64Array } {
  const centred = log.map((values) => {
    const known = values.filter((value) => !Number.isNaN(value));
    const middle = known.length === 0 ? 0 : median(known);
    return values.map((value) => value - middle);
  });
  const places = together(log[before]!, log[later]!);
  const long = pick(log[before]!, places).sort()[Math.floor((2 * places.length) / 3)] ?? Infinity;
  const against = (place: number) => {
    const rest = centred.flatMap((values, step) =>
      step === before || step === later || Number.isNaN(values[place]) ? [] : [values[place]!],
    );
    return centred[later]![place]! - rest.reduce((sum, value) => sum + value, 0) / Math.max(1, rest.length);
  };
  return {
    long: Float64Array.from(
      places.filter((place) => log[before]![place]! >= long),
      against,
    ),
    others: Float64Array.from(
      places.filter((place) => log[before]![place]! < long),
      against,
    ),
  };
}

const together = (a: Float64Array, b: Float64Array) =>
  [...a.keys()].filter((place) => !Number.isNaN(a[place]) && !Number.isNaN(b[place]));

const pick = (values: Float64Array, places: readonly number[]) => Float64Array.from(places, (place) => values[place]!);
