import { bernoulliCusumLimit, bernoulliCusumSurvival, bernoulliCusumWeights, riskAdjustedWeights } from '../statistics';
import { limitFor, rateAtOdds, signalProbability, type RiskClass } from './monitor-chain';
import type { MonitoredOperation } from './monitor-operations';
import { safetyThresholds as set } from './thresholds';

/** The line that holds over some operations: an expected rate, what each operation weighs, and the limit. */
export type MonitorLine = {
  /** Place of the first operation it holds for. */
  from: number;
  rate: number;
  riskOf: (one: MonitoredOperation) => number;
  weightOf: (one: MonitoredOperation) => number;
  /** Worked out when asked for the first time. */
  limit: () => number;
};

/** @param operations the whole record: the mix of risks in it decides the limit where complexity classes are entered */
export function monitorLine(from: number, rate: number, operations: readonly MonitoredOperation[]): MonitorLine {
  const riskOf = (one: MonitoredOperation) => one.risk ?? rate;
  let known: number | null = null;
  return {
    from,
    rate,
    riskOf,
    weightOf: (one) => {
      const weights = riskAdjustedWeights(riskOf(one), set.monitorOddsRatio);
      return one.serious ? weights.event : weights.none;
    },
    limit: () => (known ??= limitOf(classesOf(operations, riskOf))),
  };
}

/** Probability of a signal within 200 operations if the odds of a serious event had doubled. */
export function wouldNotice(line: MonitorLine, operations: readonly MonitoredOperation[]): number {
  const classes = classesOf(operations, line.riskOf);
  const [only] = classes;
  const doubled = (rate: number) => rateAtOdds(rate, set.monitorOddsRatio);
  if (only && classes.length === 1) {
    const weights = bernoulliCusumWeights(only.expected, set.monitorOddsRatio);
    const survival = bernoulliCusumSurvival(weights, line.limit(), doubled(only.expected), set.monitorHorizon);
    return 1 - (survival[set.monitorHorizon] ?? 1);
  }
  return signalProbability(
    classes.map((one) => ({ ...one, truth: doubled(one.expected) })),
    set.monitorOddsRatio,
    line.limit(),
    set.monitorHorizon,
  );
}

/** Limits already worked out. They rest on these classes alone, take some 50 ms, and every page asks for the same. */
const limits = new Map<string, number>();
const LIMITS_KEPT = 100;

function limitOf(classes: readonly RiskClass[]): number {
  const key = classes.map(({ share, expected }) => `${share}:${expected}`).join();
  const limit = limits.get(key) ?? exactLimit(classes);
  if (limits.size >= LIMITS_KEPT) limits.clear();
  limits.set(key, limit);
  return limit;
}

function exactLimit(classes: readonly RiskClass[]): number {
  const [only] = classes;
  return only && classes.length === 1
    ? bernoulliCusumLimit(only.expected, set.monitorOddsRatio, set.monitorHorizon, set.monitorFalseSignal)
    : limitFor(classes, set.monitorOddsRatio, set.monitorHorizon, set.monitorFalseSignal);
}

function classesOf(operations: readonly MonitoredOperation[], riskOf: MonitorLine['riskOf']): RiskClass[] {
  const counts = new Map<number, number>();
  for (const one of operations) counts.set(riskOf(one), (counts.get(riskOf(one)) ?? 0) + 1);
  return [...counts].map(([expected, count]) => ({ share: count / operations.length, expected, truth: expected }));
}
